#include <catch2/catch.hpp>
#include <cmath>

#include "ui/desktop/actions.h"
#include "ui/desktop/look.h"

using namespace flitch::desktop;

namespace {

/// WCAG 2.1, relative luminance and contrast ratio.
double luminance(const QColor& colour) {
  const auto channel = [](double v) {
    return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * channel(colour.redF()) + 0.7152 * channel(colour.greenF()) +
         0.0722 * channel(colour.blueF());
}

double contrast(const QColor& a, const QColor& b) {
  const double x = luminance(a) + 0.05, y = luminance(b) + 0.05;
  return x > y ? x / y : y / x;
}

}  // namespace

TEST_CASE("Text keeps a contrast of 4.5 and lines of 3 on every ground, day and night") {
  for (const Colours* c : {&dayColours(), &nightColours()}) {
    for (const QColor& ground : {c->ground, c->sheet, c->field, c->stripe, c->picked, c->cherry,
                                 c->ash, c->oak, c->errorBand, c->cautionBand}) {
      for (const QColor& text : {c->ink, c->soft, c->blue, c->red, c->good, c->caution}) {
        INFO(text.name().toStdString() << " on " << ground.name().toStdString());
        CHECK(contrast(text, ground) >= 4.5);
      }
    }
    for (const QColor& ground : {c->ground, c->sheet, c->field, c->cherry, c->ash, c->oak}) {
      CHECK(contrast(c->edge, ground) >= 3.0);
    }
  }
}

TEST_CASE("The contrast formula gives the published ends of its scale") {
  CHECK(contrast(Qt::black, Qt::white) == Approx(21.0));
  CHECK(contrast(Qt::red, Qt::red) == Approx(1.0));
}

TEST_CASE("No two actions share a key where both can be live") {
  for (const QString& found : clashes(actionTable())) FAIL_CHECK(found.toStdString());
  CHECK(actionTable().size() > 30);
}

TEST_CASE("The table of actions is refused when it is wrong") {
  const ActionRow good{Act::plan, "plan", "Plan", "Plans.", "Ctrl+Return", inJobs, "", ""};
  const auto refused = [&](ActionRow bad) {
    const std::vector<ActionRow> table{good, bad};
    return clashes(table).size();
  };
  CHECK(clashes(std::vector<ActionRow>{good}).empty());
  CHECK(refused({Act::undo, "undo", "Undo", "Undoes.", "Ctrl+Return", inJobs, "", ""}) == 1);
  CHECK(refused({Act::undo, "undo", "Undo", "Undoes.", "Ctrl+Return", inRack, "", ""}) == 0);
  CHECK(refused({Act::undo, "undo", "", "Undoes.", "Ctrl+Z", inJobs, "", ""}) == 1);
  CHECK(refused({Act::undo, "undo", "Undo", "", "Ctrl+Z", inJobs, "", ""}) == 1);
  CHECK(refused({Act::undo, "undo", "Undo", "Undoes.", "", inJobs, "", ""}) == 1);
  CHECK(refused({Act::undo, "plan", "Undo", "Undoes.", "Ctrl+Z", inJobs, "", ""}) == 1);
  CHECK(refused({Act::undo, "undo", "A name of more than twenty-four letters", "Undoes.", "Ctrl+Z",
                 inJobs, "", ""}) == 1);
  CHECK(refused({Act::undo, "undo", "Undo", "Undoes.", "Ctrl+Z", 0, "", ""}) == 1);
}

TEST_CASE("A system in the dark is followed until a maker chooses") {
  Look look;
  look.choose(true);
  CHECK(look.night());
  look.systemChanged();
  CHECK(look.night());
  look.choose(false);
  CHECK_FALSE(look.night());
  CHECK(look.palette().color(QPalette::Window) == dayColours().sheet);
}
