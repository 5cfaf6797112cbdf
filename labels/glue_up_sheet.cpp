#include "labels/glue_up_sheet.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include "inventory/records/part_wood.h"
#include "labels/mark_drawing.h"
#include "labels/page.h"
#include "labels/sheet.h"

namespace flitch::pages {
namespace {

constexpr double panelWidth = 118, panelHeight = 112, leastRow = 7;

const Board& boardOf(const Glued& glued, const std::vector<Board>& boards) {
  const auto found = std::find_if(boards.begin(), boards.end(),
                                  [&](const Board& board) { return board.id == glued.board; });
  if (found == boards.end()) throw std::invalid_argument("a stave's board is not at hand");
  return *found;
}

const Part& partOf(const Job& job, int line) {
  const auto found = std::find_if(job.parts.begin(), job.parts.end(),
                                  [line](const Part& part) { return part.line == line; });
  if (found == job.parts.end()) throw std::invalid_argument("a glue-up of no part of the job");
  return *found;
}

/// A stave on the sheet.
struct Row {
  const Glued* blank;
  int section;
  double top, height;
};

class GlueUpSheet {
 public:
  GlueUpSheet(const GlueUp& up, const std::vector<Board>& boards, const Job& job,
              const ShopProfile& shop, const CutSheetFacts& facts)
      : up_(up),
        boards_(boards),
        job_(job),
        part_(partOf(job, up.line)),
        shop_(shop),
        facts_(facts),
        laminated_(up.kind == LayupKind::lamina),
        sheet_(facts.letter, false) {}

  Page draw(std::size_t number, std::size_t all) {
    head(number, all);
    layRows();
    panel();
    sections();
    jointMarks();
    clamps();
    steps();
    movement();
    titleBlock(number, all);
    return std::move(sheet_.page);
  }

 private:
  [[nodiscard]] QString said(Length length) const {
    return asText(
        text(length, facts_.unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres));
  }
  [[nodiscard]] std::size_t blanks() const {
    std::size_t all = 0;
    for (const auto& section : up_.sections) all += section.size();
    return all;
  }
  [[nodiscard]] double left() const { return sheet_.left(); }
  [[nodiscard]] double foot() const { return rows_.front().top + rows_.front().height; }

  void head(std::size_t number, std::size_t all) {
    const double top = Sheet::margin;
    const QString letter = asText(partLetter(part_.line));
    sheet_.write(left(), top + 13, letter, fittingPoints(letter, 40, true, 22), true);
    const QString copies =
        QString("%1 %2 of %3").arg(laminated_ ? "block" : "panel").arg(number).arg(all);
    const double right =
        std::max(textWidth(asText(job_.name), 14, true), textWidth(copies, 12, false));
    sheet_.writeRight(sheet_.right(), top + 6, asText(job_.name), 14, true, 70);
    sheet_.writeRight(sheet_.right(), top + 13, copies, 12);
    const double room = sheet_.right() - left() - 30 - std::min(right, 70.0);
    QString name = asText(part_.name);
    if (part_.wanted() > 1) name += QString(" %1").arg(up_.copy);
    sheet_.write(left() + 24, top + 6, name, 16, true, room);
    sheet_.write(left() + 24, top + 13,
                 "finished " + said(part_.length) + " × " + said(part_.width) + " × " +
                     said(part_.thickness) + ", " + asText(part_.faceA) + " face A",
                 12, false, room);
    sheet_.rule(top + 18);
    top_ = top + 30;
  }

  /// The front edge lies at the foot; of laminae face A at the head.
  void layRows() {
    Length high;
    for (const auto& section : up_.sections)
      for (const Glued& g : section) high += g.layup.gives;
    scale_ = std::min(panelWidth / mm(part_.length), panelHeight / mm(high));
    wide_ = mm(part_.length) * scale_;
    double y = top_;
    std::vector<Row> fromHead;
    const auto row = [&](const Glued& g) {
      double height = mm(g.layup.gives) * scale_;
      if (height < leastRow) {
        height = leastRow;
        toScale_ = false;
      }
      fromHead.push_back({&g, g.layup.section, y, height});
      y += height;
    };
    if (laminated_) {
      for (const Glued& g : up_.sections.front()) row(g);
    } else {
      for (auto s = up_.sections.rbegin(); s != up_.sections.rend(); ++s)
        for (auto g = s->rbegin(); g != s->rend(); ++g) row(*g);
    }
    rows_.assign(fromHead.rbegin(), fromHead.rend());
    if (wide_ < 60) {
      wide_ = 60;  // room for its words
      toScale_ = false;
    }
  }

  void panel() {
    sheet_.write(left(), top_ - 3, laminated_ ? "FACE A" : "FACE A UP", 11, true);
    if (!laminated_)
      sheet_.writeRight(left() + wide_, top_ - 3, "back edge", 10, false, 0, Tone::soft);
    int turn = 0;
    for (const Row& row : rows_) stave(row, turn++ % 2 == 0);
    triangle();
    for (const Row& row : rows_) words(row);
    sheet_.box(QRectF(left(), top_, wide_, foot() - top_), 0.7);
    sheet_.write(left(), foot() + 7.5, laminated_ ? "face B" : "front edge", 10, false, 0,
                 Tone::soft);
    if (toScale_) return;
    sheet_.writeRight(left() + wide_, foot() + 7.5, "not to scale", 9, false, 0, Tone::soft);
  }

  void stave(const Row& row, bool heartUp) {
    sheet_.box(QRectF(left(), row.top, wide_, row.height), 0.35);
    if (!row.blank->layup.turned && !laminated_)
      rings({left() + wide_ - 10, row.top + row.height / 2}, heartUp);
  }

  /// What a stave is, on a patch that the triangle passes under.
  void words(const Row& row) {
    const Glued& g = *row.blank;
    const Board& board = boardOf(g, boards_);
    const double base = row.top + row.height / 2 + 1.8;
    const QString mark = asText(handMark(g.blank.line, g.blank.copy));
    const double end = sheet_.write(left() + 3, base, mark, row.height > 9 ? 13 : 10, true);
    QString words = said(g.blank.at.dy) + " rough  ";
    words += board.tag ? asText(text(*board.tag)) : asText(board.species);
    words += g.layup.turned ? "" : g.blank.faceUp == Face::a ? "  A up" : "  B up";
    const double room = left() + wide_ - 18 - end - 3;
    if (row.height <= 5) return;
    const double high = 9 * mmPerPoint;
    const QRectF patch(end + 2, base - 0.8 * high, std::min(room, textWidth(words, 9, false)) + 2,
                       1.1 * high);
    sheet_.page.ink.emplace_back(
        Area{{patch.topLeft(), patch.topRight(), patch.bottomRight(), patch.bottomLeft()},
             Fill::tone,
             Tone::sheet});
    sheet_.write(end + 3, base, words, 9, false, room);
  }

  /// Growth rings on a stave's end: their hollow toward the heart.
  void rings(const QPointF& middle, bool heartUp) {
    for (int ring = 0; ring < 3; ++ring) {
      const double half = 4.5 - 1.3 * ring;
      const double up = heartUp ? 1 : -1;
      Line arc;
      arc.width = 0.25;
      constexpr int points = 9;
      for (int p = 0; p < points; ++p) {
        const double x = -half + 2 * half * p / (points - 1);
        const double sag = 0.09 * (half * half - x * x);
        arc.points.emplace_back(middle.x() + x, middle.y() + up * (sag - 0.9 * ring - 0.2));
      }
      sheet_.page.ink.emplace_back(std::move(arc));
    }
  }

  /// Chalked over the whole, so that no stave can be turned or moved unseen.
  void triangle() {
    const double x = left() + wide_ * 0.62;
    sheet_.page.ink.emplace_back(Line{{{x, top_ + 2},
                                       {x - wide_ * 0.11, foot() - 2},
                                       {x + wide_ * 0.11, foot() - 2},
                                       {x, top_ + 2}},
                                      0.6,
                                      Dash::solid,
                                      Tone::ink});
  }

  void sections() {
    if (laminated_) return;
    const double x = left() + wide_ + 4;
    for (std::size_t s = 0; s < up_.sections.size(); ++s) {
      const int number = up_.sections[s].front().layup.section;
      double high = foot(), low = top_;
      for (const Row& row : rows_) {
        if (row.section != number) continue;
        high = std::min(high, row.top);
        low = std::max(low, row.top + row.height);
      }
      const double y0 = high + 1, y1 = low - 1;
      sheet_.page.ink.emplace_back(
          Line{{{x, y0}, {x + 2, y0}, {x + 2, y1}, {x, y1}}, 0.35, Dash::solid, Tone::ink});
      const double base = (y0 + y1) / 2;
      sheet_.write(x + 5, base, QString("section %1").arg(number), 11, true);
      sheet_.write(x + 5, base + 5.5, said(widthOf(up_.sections[s])), 11);
    }
  }
  [[nodiscard]] static Length widthOf(const std::vector<Glued>& section) {
    Length width;
    for (const Glued& g : section) width += g.layup.gives;
    return width;
  }

  [[nodiscard]] double along(Length x) const { return left() + wide_ * (mm(x) / mm(part_.length)); }

  void jointMarks() {
    if (laminated_) return;
    for (std::size_t r = 1; r < rows_.size(); ++r) {
      const double joint = rows_[r].top + rows_[r].height;
      for (const Length& at : alignmentMarks(part_.length, facts_.unit)) {
        const double x = along(at);
        sheet_.page.ink.emplace_back(
            Line{{{x, joint - 1.3}, {x, joint + 1.3}}, 0.5, Dash::solid, Tone::ink});
      }
    }
  }

  /// Over the panel filled, under it open, in turn.
  void clamps() {
    const std::vector<Length> places = clampPlaces(part_.length, facts_.unit);
    for (std::size_t c = 0; c < places.size(); ++c) {
      const double x = along(places[c]);
      const QRectF jaw(x - 1.2, foot() + 1, 2.4, 2.4);
      if (c % 2 == 0) {
        sheet_.filled(jaw, Tone::ink);
      } else {
        sheet_.box(jaw, 0.3);
      }
    }
  }

  void step(const QString& sentence) {
    ++step_;
    const double room = sheet_.right() - left() - 12;
    sheet_.ring(left() + 4, y_ - 1.5, 3.2);
    sheet_.writeCentred(left() + 4, y_, QString::number(step_), 10, true);
    for (const QString& line : wrapped(sentence, 11, false, room)) {
      sheet_.write(left() + 11, y_, line, 11);
      y_ += 5.6;
    }
    y_ += 2.4;
  }

  void steps() {
    y_ = foot() + 12;
    sheet_.rule(y_ - 2);
    y_ += 6;
    if (laminated_) {
      laminaSteps();
      return;
    }
    const bool turned = rows_.front().blank->layup.turned;
    step(turned ? "Lay the strips out by the triangle, sawn faces up: the boards' faces are glued."
                : "Lay out by the triangle, the face named beside each stave up. Where both faces "
                  "serve, let the hearts alternate as the arcs show.");
    step("Joint the edges: " + said(turned ? 2 * shop_.addPerFace : shop_.jointStave) +
         " off each is counted. Mark joints for biscuits or dowels where the short lines cross "
         "them, " +
         said(marksApart()) + " apart (common practice).");
    const auto sections = up_.sections.size();
    if (sections > 1) {
      Length widest;
      for (const auto& section : up_.sections) widest = std::max(widest, widthOf(section));
      step(QString("Glue each of the %1 sections. ").arg(sections) + clampSentence());
      step("Plane each section to " + said(part_.thickness) + ": the widest is " + said(widest) +
           ", the planer takes " + said(shop_.planerWidth) + ".");
      step("Chalk the marks again. Joint and glue the sections, flatten, trim to " +
           said(part_.length) + " × " + said(part_.width) + ".");
    } else {
      step("Glue all staves. " + clampSentence());
      step("Plane to " + said(part_.thickness) + ", trim to " + said(part_.length) + " × " +
           said(part_.width) + ".");
    }
  }
  [[nodiscard]] Length marksApart() const {
    const std::vector<Length> marks = alignmentMarks(part_.length, facts_.unit);
    return marks.size() < 2 ? part_.length : marks[1] - marks[0];
  }
  [[nodiscard]] QString clampSentence() const {
    return QString("%1 clamps, over and under in turn (filled: over). ")
               .arg(clampPlaces(part_.length, facts_.unit).size()) +
           "Keep iron off the wood with paper or blocks: wet glue and iron stain light wood.";
  }

  void laminaSteps() {
    step("Plane each lamina to " + said(up_.sections.front().front().layup.gives) +
         " and lay them in this order, their edges and the triangle on them in line.");
    step("Spread glue on every face between them. " + clampSentence());
    step("Let it set, joint one edge, rip and plane to " + said(part_.width) + " × " +
         said(part_.thickness) + ", trim to " + said(part_.length) + ".");
    step(
        "Blanks that hold laminae of several copies are glued as they are and cut apart "
        "afterwards.");
  }

  void movement() {
    for (const PartMovement& m : movements(job_, facts_.ownSpecies, seasonOf(shop_), facts_.unit)) {
      if (m.line != part_.line) continue;
      const QString words = "Over the year it " + asText(movementText(m, facts_.unit)) +
                            " across its width: fix it so that it can.";
      y_ += 1;
      sheet_.box(QRectF(left(), y_ - 5, sheet_.right() - left(), 9), 0.4);
      sheet_.write(left() + 4, y_ + 1, words, 11, false, sheet_.right() - left() - 8);
    }
  }

  void titleBlock(std::size_t number, std::size_t all) {
    std::set<std::int64_t> from;
    for (const Row& row : rows_) from.insert(row.blank->board.value);
    const QString scale =
        toScale_ ? "1 : " + QString::number(1 / scale_, 'f', 1) : QString("not to scale");
    sheet_.titleBlock(
        {{"Job", asText(job_.name), 0.3},
         {laminated_ ? "Laminae" : "Staves",
          QString("%1 from %2 board%3")
              .arg(blanks())
              .arg(from.size())
              .arg(from.size() == 1 ? "" : "s"),
          0.26},
         {"Scale", scale, 0.16},
         {"Unit", facts_.unit == Unit::inches ? "inches" : "millimetres", 0.12},
         {"Sheet", asText(partLetter(part_.line)) + QString(", %1 of %2").arg(number).arg(all),
          0.16}});
  }

  const GlueUp& up_;
  const std::vector<Board>& boards_;
  const Job& job_;
  const Part& part_;
  const ShopProfile& shop_;
  const CutSheetFacts& facts_;
  bool laminated_;
  Sheet sheet_;
  std::vector<Row> rows_;  ///< from the front edge, of laminae from face B
  double top_ = 0, scale_ = 1, wide_ = 0, y_ = 0;
  bool toScale_ = true;
  int step_ = 0;
};

}  // namespace

std::vector<Page> glueUpSheets(const CutPlan& plan, const std::vector<Board>& boards,
                               const Job& job, const ShopProfile& shop,
                               const CutSheetFacts& facts) {
  std::vector<GlueUp> ups = glueUpsOf(plan);
  std::erase_if(ups, [](const GlueUp& up) { return !up.glued; });
  std::vector<Page> pages;
  for (std::size_t n = 0; n < ups.size(); ++n) {
    pages.push_back(GlueUpSheet(ups[n], boards, job, shop, facts).draw(n + 1, ups.size()));
  }
  return pages;
}

}  // namespace flitch::pages
