// A plan or a profile drawn to scale as inline SVG.
#pragma once

#include "underprop/record/survey.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace underprop::report {

/// Where the paper's millimetres come from: a box of the deck in mm, drawn with x to the right and y
/// up, inside margins given in pixels.
struct Box {
  double min_x = 0.0, min_y = 0.0, max_x = 0.0, max_y = 0.0;
  bool empty = true;
  void add(double x, double y);
  void add(Point p) { add(p.x.value(), p.y.value()); }
};

class Svg {
public:
  struct Margins {
    double left = 0.0, right = 0.0, top = 0.0, bottom = 0.0;
  };
  /// The drawing is `width` px wide; its height follows from the box, at most `most_height` px.
  Svg(const Box& box, double width, double most_height, Margins margins);

  // Pixels.
  [[nodiscard]] double x(double plan_x) const;
  [[nodiscard]] double y(double plan_y) const;
  [[nodiscard]] double scale() const { return scale_; }  ///< px per mm
  [[nodiscard]] double width() const { return width_; }
  [[nodiscard]] double height() const { return height_; }
  [[nodiscard]] double right() const { return x(box_.max_x); }
  [[nodiscard]] double bottom() const { return y(box_.min_y); }

  // In pixels.
  void line(double x1, double y1, double x2, double y2, std::string_view css);
  void rect(double x, double y, double w, double h, std::string_view css,
            std::string_view extra = {});
  void circle(double x, double y, double r, std::string_view css);
  void text(double x, double y, std::string_view text, std::string_view css,
            std::string_view anchor = "start", double turned_deg = 0.0);
  void path(std::string_view d, std::string_view css);
  // In plan, mm.
  void plan_rect(double x1, double y1, double x2, double y2, std::string_view css,
                 std::string_view extra = {}, double least_px = 0.0);
  void polygon(const std::vector<Point>& points, std::string_view css, std::string_view extra = {});
  void raw(std::string_view markup) { body_ += markup; }

  /// A dimension line between two plan coordinates, at a pixel height or pixel column.
  void dimension_x(double from, double to, double at_px, std::string_view label);
  void dimension_y(double from, double to, double at_px, std::string_view label);
  void arrow(double x1, double y1, double x2, double y2);
  void tag(double x, double y, int number);

  /// <svg ...> with its title for readers that cannot see it. `id` is unique in the page.
  [[nodiscard]] std::string finish(std::string_view id, std::string_view title) const;

private:
  Box box_;
  double width_ = 0.0, height_ = 0.0, scale_ = 1.0, left_ = 0.0, top_ = 0.0;
  std::string body_;
};

/// A number of pixels, one decimal.
[[nodiscard]] std::string px(double value);

}  // namespace underprop::report
