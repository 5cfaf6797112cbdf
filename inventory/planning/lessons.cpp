#include "inventory/planning/lessons.h"

#include <algorithm>

#include "inventory/planning/plan_words.h"
#include "inventory/records/blank.h"
#include "inventory/records/table.h"
#include "inventory/wood/thickness.h"
#include "inventory/wood/writing.h"

namespace flitch::planning {

namespace {

std::string counted(int n, const char* one, const char* many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

std::string shareText(Feet part, Feet whole) {
  const Wide share = nearest(static_cast<Wide>(part.thousandths) * 1000, whole.thousandths);
  return text(CellValue{Permille{narrow(share)}}, Unit::inches, "");
}

}  // namespace

std::string unseenLesson(const Learned& learned, const std::string& supplier, int blanks) {
  const auto found = learned.unseen.find(supplier);
  if (found == learned.unseen.end() || found->second.sawn == 0) return "";
  const auto [sawn, lost] = found->second;
  const int expected = (blanks * lost + sawn - 1) / sawn;
  return "Of " + counted(sawn, "blank", "blanks") + " sawn from faces of " + supplier +
         " that nobody had looked at " + (lost == 0 ? "none" : std::to_string(lost)) +
         (lost > 1 ? " were lost" : " was lost") + ": of these " + std::to_string(blanks) +
         " count on losing " + (expected == 0 ? "none." : std::to_string(expected) + ".");
}

namespace {

/// Wood that is there may serve once its grain is looked at: none need be bought yet.
bool waitsForGrain(const Part& part, const PlanRequest& request) {
  const Length least = blankFor(part, request.shop).thickness;
  return part.straight &&
         std::any_of(request.boards.begin(), request.boards.end(), [&](const Board& board) {
           return !board.grain && board.thickness >= least &&
                  std::find(part.species.begin(), part.species.end(), board.species) !=
                      part.species.end();
         });
}

}  // namespace

std::vector<ToBuy> toBuy(const std::vector<ShortPart>& shorts, const PlanRequest& request,
                         const Learned& known) {
  std::vector<ToBuy> all;
  for (const ShortPart& missing : shorts) {
    const auto part = std::find_if(request.job.parts.begin(), request.job.parts.end(),
                                   [&](const Part& p) { return p.line == missing.line; });
    if (part == request.job.parts.end() || missing.unseenOnly || part->species.empty()) continue;
    if (waitsForGrain(*part, request)) continue;
    const Nominal nominal = leastNominal(blankFor(*part, request.shop).thickness);
    const std::string& species = part->species.front();
    auto wood = std::find_if(all.begin(), all.end(), [&](const ToBuy& w) {
      return w.species == species && w.nominal == nominal;
    });
    if (wood == all.end()) {
      const FeetUsed learned = known.yieldOf(species, nominal);
      if (learned.parts.thousandths <= 0) continue;
      wood = all.insert(all.end(), {species, nominal, {}, {}, {}, learned});
    }
    wood->parts += (wood->parts.empty() ? "" : ", ") + std::to_string(missing.copies) + " of " +
                   part->name + " (" + partLetter(missing.line) + ")";
    const Feet each = volumeTally(nominal, part->width, part->length);
    wood->inParts += Feet{each.thousandths * missing.copies};
  }
  constexpr std::int64_t foot = 1000;
  for (ToBuy& wood : all) {
    const Wide need = static_cast<Wide>(wood.inParts.thousandths) * wood.learned.used.thousandths;
    const Wide feet = static_cast<Wide>(wood.learned.parts.thousandths) * foot;
    wood.feet = Feet{narrow((need + feet - 1) / feet) * foot};
  }
  return all;
}

std::string buyText(const ToBuy& wood) {
  const std::string stock = wood.species + " " + text(wood.nominal);
  const std::string parts = text(wood.inParts) + " bf in parts";
  return "Short of " + stock + ": buy about " + std::to_string(wood.feet.thousandths / 1000) +
         " bf (" + parts + "; of what the saw used up so far " +
         shareText(wood.learned.parts, wood.learned.used) + " is in parts).";
}

std::vector<std::string> lessons(const PlanResult& result, const Learned& learned) {
  const PlanRequest& request = result.request;
  std::vector<std::string> sentences;
  const UnseenShare share =
      unseenShare(result.plan, request.boards, request.job, request.shop, request.unit);
  for (const auto& [supplier, blanks] : share.bySupplier) {
    std::string lesson = unseenLesson(learned, supplier, blanks);
    if (!lesson.empty()) sentences.push_back(std::move(lesson));
  }
  for (const ToBuy& wood : toBuy(result.plan.shorts, request, learned)) {
    sentences.push_back(buyText(wood));
  }
  return sentences;
}

}  // namespace flitch::planning
