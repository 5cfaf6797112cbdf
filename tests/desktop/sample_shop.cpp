#include "tests/desktop/sample_shop.h"

#include <QFile>

#include "inventory/desk/jobs.h"
#include "inventory/desk/receive.h"

namespace flitch::desktop::sample {
namespace {

TallyLine line(int number, const std::string& species, int quarters, int feet, int eighthsTag,
               int eighthsFar, std::int64_t cents, const std::string& bay, Looked a, Looked b) {
  TallyLine tally;
  tally.line = number;
  tally.species = species;
  tally.nominal = Nominal::quarters(quarters);
  const Outline outline = Outline::tapered(Length::feet(feet), Length::sixtyFourths(8 * eighthsTag),
                                           Length::sixtyFourths(8 * eighthsFar));
  tally.outline = {outline, outline};
  tally.grade = cents > 700 ? "FAS" : "1C";
  tally.price = Money::tenThousandths(cents * 100);
  tally.moistureTenths = 75;
  tally.bay = bay;
  tally.looked = {a, b};
  return tally;
}

Part part(int number, const std::string& name, int copies, std::int64_t eighthsLong,
          std::int64_t eighthsWide, const std::string& species, const std::string& faceA) {
  Part p;
  p.line = number;
  p.name = name;
  p.copies = copies;
  p.length = Length::sixtyFourths(8 * eighthsLong);
  p.width = Length::sixtyFourths(8 * eighthsWide);
  p.thickness = Length::sixtyFourths(48);
  p.species = {species};
  p.faceA = faceA;
  return p;
}

}  // namespace

store::Hand hand() { return {"tester", "bench"}; }

void makeEmptyBook(const std::string& path) {
  QFile::remove(QString::fromStdString(path));
  store::BookFacts facts;
  facts.name = "Ropewalk Joinery";
  static_cast<void>(store::Book::create(path, facts));
}

void makeBook(const std::string& path) {
  makeEmptyBook(path);
  store::Book book = store::Book::open(path, store::Access::write);
  DeliveryDraft draft;
  draft.supplier = "Hobb's Reach Timber";
  draft.receivedOn = "2026-11-02";
  const auto planed = Looked::planed, rough = Looked::rough, no = Looked::no;
  draft.lines = {line(2, "cherry", 4, 10, 70, 66, 820, "B3", planed, planed),
                 line(3, "cherry", 4, 9, 52, 52, 540, "B2", rough, rough),
                 line(4, "cherry", 5, 9, 80, 77, 890, "B1", rough, rough),
                 line(5, "cherry", 5, 9, 76, 74, 890, "B1", rough, no),
                 line(6, "cherry", 4, 8, 52, 50, 540, "B2", no, no),
                 line(7, "ash", 4, 10, 54, 52, 390, "C2", rough, rough),
                 line(8, "ash", 4, 11, 59, 57, 560, "C1", planed, planed),
                 line(9, "white oak", 8, 9, 66, 63, 1250, "D1", rough, rough)};
  draft.lines[0].warp.bow = Length::sixtyFourths(16);
  const desk::Received received = desk::receive(book, draft, hand());
  Board marked = received.boards[0];
  const auto inches = [](std::int64_t sixteenths) { return Length::sixtyFourths(4 * sixteenths); };
  marked.defects = {
      {"sound knot", DefectFace::through, {inches(270), inches(95), inches(36), inches(26)}},
      {"wane", DefectFace::a, {inches(1700), inches(120), inches(110), inches(14)}},
      {"check", DefectFace::through, {inches(1870), inches(60), inches(50), inches(5)}},
      {"sapwood", DefectFace::b, {Length{}, inches(118), inches(1920), inches(16)}}};
  desk::survey(book, marked, hand());

  Job job;
  job.name = "Map chest";
  job.customer = "harbour archive";
  job.parts = {part(1, "long front", 2, 390, 26, "cherry", "clear"),
               part(2, "front rail", 4, 250, 20, "cherry", "sound"),
               part(3, "long side", 5, 280, 25, "ash", "clear")};
  desk::addJob(book, job, hand());
}

}  // namespace flitch::desktop::sample
