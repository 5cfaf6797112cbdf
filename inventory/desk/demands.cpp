#include "inventory/desk/demands.h"

#include <algorithm>

#include "inventory/store/writer.h"

namespace flitch::desk {

namespace {

/// `any`, the largest size, or nothing where no such mark may lie.
CellValue cellOf(const Demand& demand, const std::string& kind) {
  const auto limit = std::find_if(demand.limits.begin(), demand.limits.end(),
                                  [&](const MarkLimit& l) { return l.kind == kind; });
  if (limit != demand.limits.end()) return limit->largest;
  const bool allowed =
      std::find(demand.allowed.begin(), demand.allowed.end(), kind) != demand.allowed.end();
  return allowed ? CellValue{std::string("any")} : CellValue{};
}

CellValue yes(bool is) { return is ? CellValue{std::string("yes")} : CellValue{}; }

}  // namespace

Table demandTable(const ShopProfile& shop, const std::vector<DefectKind>& kinds) {
  Table table;
  table.columns = {{"demand", "demand", false}};
  std::vector<std::string> names;
  for (const DefectKind& kind : kinds) {
    if (kind.name == "good" || kind.name == "show") continue;
    std::string key = kind.name;
    std::replace(key.begin(), key.end(), ' ', '_');
    table.columns.push_back({key, kind.name, false});
    names.push_back(kind.name);
  }
  table.columns.push_back({"unseen", "not looked at", false});
  table.columns.push_back({"outside_good", "outside good", false});
  for (const Demand& demand : shop.demands) {
    std::vector<CellValue>& row = table.rows.emplace_back();
    row.emplace_back(demand.name);
    for (const std::string& kind : names) row.push_back(cellOf(demand, kind));
    row.push_back(yes(demand.unseen));
    row.push_back(yes(demand.outsideGood));
  }
  table.note = "The longer side of a mark's place counts; empty: no such mark.";
  return table;
}

EntryId setDemands(store::Book& book, const std::vector<Demand>& demands, const store::Hand& hand) {
  const store::Snapshot snapshot = book.read();
  const auto has = [&](const std::string& name) {
    return std::any_of(demands.begin(), demands.end(),
                       [&](const Demand& demand) { return demand.name == name; });
  };
  for (const Job& job : snapshot.jobs()) {
    for (const Part& part : job.parts) {
      for (const std::string& name : {part.faceA, part.faceB, part.edges[0], part.edges[1]}) {
        if (has(name)) continue;
        throw Refusal("demand-used", Complaint{"",
                                               part.name + " of " + job.name + " asks for " + name +
                                                   ", which the table would lack",
                                               name, "a table with a row " + name});
      }
    }
  }
  return book.change({"shop set", {}, "demand table", {}}, hand, [&](store::Writer& writer) {
    ShopProfile shop = writer.now().shop();
    shop.demands = demands;
    writer.addProfile(shop);
  });
}

}  // namespace flitch::desk
