#include "tests/desk/shop.h"

#include <catch2/catch.hpp>

namespace flitch::desk::sample {

TallyLine plank(Length length, Length width) {
  TallyLine line;
  line.species = "cherry";
  line.nominal = Nominal::quarters(4);
  line.thickness = in(1);
  line.outline.fill(Outline::tapered(length, width, width));
  line.price = Money::units(6);
  line.looked = {Looked::planed, Looked::planed};
  return line;
}

Part part(int line, int copies, Length length, Length width) {
  Part p;
  p.line = line;
  p.name = "part " + std::to_string(line);
  p.copies = copies;
  p.length = length;
  p.width = width;
  p.thickness = in(0, 56);
  p.species = {"cherry"};
  return p;
}

namespace {

Book newBook(const QTemporaryDir& folder) {
  store::BookFacts facts;
  facts.name = "Test shop";
  facts.program = "test";
  return Book::create(folder.filePath(QStringLiteral("shop.flitch")).toStdString(), facts);
}

}  // namespace

Shop::Shop() : book(newBook(folder_)) {}

Received Shop::receive(const std::vector<TallyLine>& lines) {
  DeliveryDraft draft;
  draft.supplier = "Yard";
  draft.receivedOn = "2026-05-31";
  draft.lines = lines;
  int number = 1;
  for (TallyLine& line : draft.lines) line.line = ++number;
  return desk::receive(book, draft, hand);
}

std::string Shop::faults() const {
  std::string all;
  for (const store::Unsound& unsound : book.check()) all += unsound.sentence + "\n";
  return all;
}

planning::PlanResult Shop::planned(JobId job, const std::vector<Cutting>& cuttings) const {
  planning::PlanResult result = planOf(book, job, cuttings);
  for (const Fault& fault : check(result.plan, result.request)) FAIL_CHECK(fault.sentence);
  return result;
}

}  // namespace flitch::desk::sample
