// The plan of the deck as lines of text.
#include "underprop/report/record_text.hpp"

#include "layout.hpp"
#include "words.hpp"

#include "underprop/base/geometry.hpp"
#include "underprop/deck/deck.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

namespace underprop::report {
namespace {

constexpr std::size_t margin = 2;         // columns at each side
constexpr std::size_t most_rows = 44;     // one screen
constexpr double height_of_column = 2.0;  // a character is about twice as high as it is wide

class Canvas {
public:
  Canvas(const Polygon& outline, std::size_t width) {
    const Interval x = extent(outline, Axis::x);
    const Interval y = extent(outline, Axis::y);
    left_ = x.low.value();
    bottom_ = y.low.value();
    const double wide = std::max(x.high.value() - left_, 1.0);
    const double high = std::max(y.high.value() - bottom_, 1.0);
    const auto most_columns = static_cast<double>(width - 2 * margin - 1);
    mm_per_column_ = std::max(wide / most_columns,
                              high / (height_of_column * static_cast<double>(most_rows - 1)));
    columns_ = static_cast<std::size_t>(std::lround(wide / mm_per_column_)) + 1;
    rows_ = static_cast<std::size_t>(std::lround(high / mm_per_row())) + 1;
    lines_.assign(rows_, std::string(columns_, ' '));
  }

  [[nodiscard]] double mm_per_column() const { return mm_per_column_; }
  [[nodiscard]] double mm_per_row() const { return height_of_column * mm_per_column_; }
  [[nodiscard]] std::size_t columns_used() const { return columns_; }

  void put(Point p, char sign) {
    const double column = std::round((p.x.value() - left_) / mm_per_column_);
    const double row = std::round((p.y.value() - bottom_) / mm_per_row());
    if (column < 0.0 || row < 0.0) return;
    const auto c = static_cast<std::size_t>(column), r = static_cast<std::size_t>(row);
    if (c >= columns_ || r >= rows_) return;
    lines_[rows_ - 1 - r][c] = sign;
  }
  void line(Point a, Point b, char sign) {
    const double length = distance(a, b).value();
    const auto steps = static_cast<int>(std::ceil(2.0 * length / mm_per_column_)) + 1;
    for (int i = 0; i <= steps; ++i) {
      const double t = static_cast<double>(i) / static_cast<double>(steps);
      put({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}, sign);
    }
  }
  void loop(const Polygon& polygon, char sign) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      line(polygon[i], polygon[(i + 1) % polygon.size()], sign);
    }
  }
  /// A name from a point on, as far as there is room.
  void name(Point p, const std::string& text) {
    Point at = p;
    at.x -= Length(0.5 * mm_per_column_ * static_cast<double>(text.size() - 1));
    for (const char sign : text) {
      put(at, sign);
      at.x += Length(mm_per_column_);
    }
  }
  [[nodiscard]] const std::vector<std::string>& lines() const { return lines_; }

private:
  double left_ = 0.0, bottom_ = 0.0, mm_per_column_ = 1.0;
  std::size_t columns_ = 1, rows_ = 1;
  std::vector<std::string> lines_;
};

Point end_of(Axis axis, Length along, Length across) { return at_along(axis, along, across); }

template <class Pieces>
void pieces(Canvas& canvas, const Pieces& list, char along_x, char along_y) {
  for (const auto& piece : list) {
    canvas.line(end_of(piece.direction, piece.from, piece.position),
                end_of(piece.direction, piece.to, piece.position),
                piece.direction == Axis::x ? along_x : along_y);
  }
}

std::string scale(const Canvas& canvas, UnitSystem units) {
  const bool feet = units == UnitSystem::us_customary;
  const double unit = feet ? 304.8 : 1000.0;
  const auto length = static_cast<std::size_t>(std::lround(unit / canvas.mm_per_column()));
  return "|" + std::string(length > 1 ? length - 1 : 0, '-') + "| " + (feet ? "1 ft" : "1 m");
}

}  // namespace

std::string plan_text(const record::Survey& survey, int width) {
  const deck::Deck deck = deck::resolve(survey, record::Reading::likely).deck;
  const UnitSystem units = units_of(survey);
  Page page(width);
  Canvas canvas(deck.outline, page.width());
  canvas.loop(deck.outline, '.');
  pieces(canvas, deck.joists, '-', '|');
  pieces(canvas, deck.bearers, '=', 'H');
  pieces(canvas, deck.ledgers, 'L', 'L');
  for (const deck::Wall& wall : deck.walls) canvas.line(wall.a, wall.b, '%');
  for (const deck::Support& support : deck.supports) canvas.put(support.at, 'O');
  for (const deck::Load& load : deck.loads) {
    canvas.loop(load.footprint, '#');
    canvas.name(load.centre, load.name.substr(0, 12));
  }

  page.paragraph(
      "The deck from above, to scale; corner A at the lower left, x to the right, y up.");
  page.blank();
  for (const std::string& line : canvas.lines()) page.line(std::string(margin, ' ') + line);
  std::string corner = "A";
  if (!deck.ledgers.empty()) corner = "A   (house wall on this side)";
  page.line(std::string(margin, ' ') + corner);
  page.line(std::string(margin, ' ') + scale(canvas, units));
  std::string legend = ". edge, | - joists";
  if (!deck.bearers.empty()) legend += ", = H bearers";
  if (!deck.ledgers.empty()) legend += ", L ledger";
  if (!deck.walls.empty()) legend += ", % walls";
  if (!deck.supports.empty()) legend += ", O supports";
  legend += ", # load";
  page.paragraph(legend);
  return page.text();
}

}  // namespace underprop::report
