#include "labels/cut_rings.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flitch::pages {

CutRings::CutRings(const BoardView& view, const BoardLook& look, double top,
                   std::vector<QRectF> words)
    : view_(view),
      u_(look.pixel),
      radius_(look.ring),
      points_(look.smallPoints),
      top_(top),
      made_(look.made),
      atHand_(look.atHand),
      words_(std::move(words)) {}

bool CutRings::free(const Circle& ring, bool ofWords) const {
  const auto meets = [&](const Circle& other) {
    return std::hypot(ring.at.x() - other.at.x(), ring.at.y() - other.at.y()) <
           ring.radius + other.radius + 1.5 * u_;
  };
  if (std::any_of(rings_.begin(), rings_.end(), meets)) return false;
  const QRectF box(ring.at - QPointF(ring.radius, ring.radius),
                   QSizeF(2 * ring.radius, 2 * ring.radius));
  return !ofWords || std::none_of(words_.begin(), words_.end(),
                                  [&](const QRectF& words) { return words.intersects(box); });
}

/// The first place clear of other rings and of words; on a strip too narrow for both, the nearest
/// such place beside it, with a leader to the cut; where even that is full, one clear of rings.
void CutRings::ring(std::vector<Ink>& ink, int number, const std::vector<QPointF>& places,
                    double radius) {
  const auto clear = [&](bool ofWords) {
    const auto found = std::find_if(places.begin(), places.end(), [&](const QPointF& place) {
      return free({place, radius}, ofWords);
    });
    return found == places.end() ? std::nullopt : std::optional(*found);
  };
  std::optional<QPointF> at = clear(true);
  bool led = false;
  if (!at) led = (at = beside(places.front(), radius, true)).has_value();
  if (!at) at = clear(false);
  if (!at) led = (at = beside(places.front(), radius, false)).has_value();
  const bool made = number <= made_;
  const Tone tone = made ? Tone::edge : Tone::red;
  if (led) ink.emplace_back(Line{{places.front(), *at}, u_, Dash::solid, tone});
  rings_.push_back({*at, radius});
  const QRectF box(*at - QPointF(radius, radius), QSizeF(2 * radius, 2 * radius));
  const bool filled = number == atHand_;
  ink.emplace_back(Ellipse{box, 0, filled ? tone : Tone::sheet, true});
  ink.emplace_back(Ellipse{box, 1.4 * u_, tone, false});
  const QString figure = made ? QStringLiteral("✓") : QString::number(number);
  const double points = fittingPoints(figure, points_, true, radius * 1.75);
  ink.emplace_back(Text{*at + QPointF(0, points * mmPerPoint * 0.37), figure, points, true,
                        Qt::AlignHCenter, filled ? Tone::sheet : tone});
}

/// The nearest place clear of other rings on widening circles. Where it is to be clear of words
/// too, none further than twelve radii away, else there always is one.
std::optional<QPointF> CutRings::beside(const QPointF& home, double radius, bool ofWords) const {
  constexpr int directions = 16;
  for (double away = radius; !ofWords || away < 12 * radius; away += radius / 2)
    for (int n = 0; n < directions; ++n) {
      const double angle = 2 * std::numbers::pi * n / directions;
      const QPointF place = home + away * QPointF(std::cos(angle), std::sin(angle));
      if (free({place, radius}, ofWords)) return place;
    }
  return std::nullopt;
}

void CutRings::draw(std::vector<Ink>& ink, const std::vector<SawStep>& steps) {
  const double high = radius_;
  for (const SawStep& step : steps) {
    const bool ofBoard =
        step.kind == SawStep::Kind::squareEnd || step.kind == SawStep::Kind::crosscut;
    if (step.number == 0 || !ofBoard) continue;
    const double x = view_.page(step.at).center().x();
    const double y = top_ - 10 * u_ - high;
    std::vector<QPointF> places;
    for (const double nudge : {0, 6, -6, 12, -12, 18, -18, 24, -24, 30, -30})
      places.emplace_back(x + nudge * u_, y);
    ring(ink, step.number, places, high);
  }
  const double low = high * 0.9;
  for (const SawStep& step : steps) {
    if (step.number == 0 || step.kind != SawStep::Kind::trimStrip) continue;
    const QRectF box = view_.page(step.at);
    std::vector<QPointF> places;
    for (const double part : {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8})
      places.emplace_back(box.center().x(), box.top() + box.height() * part);
    ring(ink, step.number, places, low);
  }
  for (const SawStep& step : steps) {
    if (step.number == 0 || step.kind != SawStep::Kind::rip) continue;
    const QRectF box = view_.page(step.at);
    std::vector<QPointF> places;
    for (double back = 16 * u_; back < box.width() - 8 * u_ || places.empty(); back += 4 * u_)
      places.emplace_back(box.right() - back, box.center().y());
    ring(ink, step.number, places, low);
  }
}

}  // namespace flitch::pages
