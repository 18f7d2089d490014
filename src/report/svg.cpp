#include "svg.hpp"

#include "markup.hpp"
#include "underprop/base/format.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace underprop::report {

void Box::add(double px_x, double px_y) {
  if (!std::isfinite(px_x) || !std::isfinite(px_y)) return;
  if (empty) {
    min_x = max_x = px_x;
    min_y = max_y = px_y;
    empty = false;
    return;
  }
  min_x = std::min(min_x, px_x);
  max_x = std::max(max_x, px_x);
  min_y = std::min(min_y, px_y);
  max_y = std::max(max_y, px_y);
}

std::string px(double value) { return std::isfinite(value) ? format_decimals(value, 1) : "0"; }

Svg::Svg(const Box& box, double width, double most_height, Margins margins)
    : box_(box), width_(width) {
  const double wide = std::max(box.max_x - box.min_x, 1.0);
  const double high = std::max(box.max_y - box.min_y, 1.0);
  const double room_x = width - margins.left - margins.right;
  const double room_y = most_height - margins.top - margins.bottom;
  scale_ = std::min(room_x / wide, room_y / high);
  height_ = margins.top + margins.bottom + high * scale_;
  left_ = margins.left + (room_x - wide * scale_) / 2.0;
  top_ = margins.top;
}

double Svg::x(double plan_x) const { return left_ + (plan_x - box_.min_x) * scale_; }
double Svg::y(double plan_y) const { return top_ + (box_.max_y - plan_y) * scale_; }

void Svg::line(double x1, double y1, double x2, double y2, std::string_view css) {
  body_ += fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" class=\"{}\"/>\n", px(x1),
                       px(y1), px(x2), px(y2), css);
}

void Svg::rect(double left, double top, double w, double h, std::string_view css,
               std::string_view extra) {
  body_ += fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" class=\"{}\"{}{}/>\n",
                       px(left), px(top), px(std::max(w, 0.0)), px(std::max(h, 0.0)), css,
                       extra.empty() ? "" : " ", extra);
}

void Svg::circle(double cx, double cy, double r, std::string_view css) {
  body_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" class=\"{}\"/>\n", px(cx), px(cy),
                       px(r), css);
}

void Svg::text(double at_x, double at_y, std::string_view text, std::string_view css,
               std::string_view anchor, double turned_deg) {
  std::string turn;
  if (turned_deg != 0.0) {
    turn = fmt::format(" transform=\"rotate({} {} {})\"", px(turned_deg), px(at_x), px(at_y));
  }
  body_ += fmt::format("<text x=\"{}\" y=\"{}\" class=\"{}\" text-anchor=\"{}\"{}>{}</text>\n",
                       px(at_x), px(at_y), css, anchor, turn, esc(text));
}

void Svg::path(std::string_view d, std::string_view css) {
  body_ += fmt::format("<path d=\"{}\" class=\"{}\"/>\n", d, css);
}

void Svg::plan_rect(double x1, double y1, double x2, double y2, std::string_view css,
                    std::string_view extra, double least_px) {
  double left = x(std::min(x1, x2)), right = x(std::max(x1, x2));
  double top = y(std::max(y1, y2)), bottom = y(std::min(y1, y2));
  if (right - left < least_px) {
    const double middle = (left + right) / 2.0;
    left = middle - least_px / 2.0;
    right = middle + least_px / 2.0;
  }
  if (bottom - top < least_px) {
    const double middle = (top + bottom) / 2.0;
    top = middle - least_px / 2.0;
    bottom = middle + least_px / 2.0;
  }
  rect(left, top, right - left, bottom - top, css, extra);
}

void Svg::polygon(const std::vector<Point>& points, std::string_view css, std::string_view extra) {
  if (points.empty()) return;
  std::string list;
  for (const Point& p : points) {
    if (!list.empty()) list += ' ';
    list += px(x(p.x.value())) + "," + px(y(p.y.value()));
  }
  body_ += fmt::format("<polygon points=\"{}\" class=\"{}\"{}{}/>\n", list, css,
                       extra.empty() ? "" : " ", extra);
}

void Svg::dimension_x(double from, double to, double at_px, std::string_view label) {
  const double a = x(from), b = x(to);
  line(a, at_px, b, at_px, "dim");
  for (const double end : {a, b}) line(end - 3, at_px + 3, end + 3, at_px - 3, "dim");
  text((a + b) / 2.0, at_px - 5, label, "dimtext halo", "middle");
}

void Svg::dimension_y(double from, double to, double at_px, std::string_view label) {
  const double a = y(from), b = y(to);
  line(at_px, a, at_px, b, "dim");
  for (const double end : {a, b}) line(at_px - 3, end + 3, at_px + 3, end - 3, "dim");
  text(at_px - 5, (a + b) / 2.0, label, "dimtext halo", "middle", -90.0);
}

void Svg::arrow(double x1, double y1, double x2, double y2) {
  line(x1, y1, x2, y2, "axis");
  const double length = std::hypot(x2 - x1, y2 - y1);
  if (length <= 0.0) return;
  const double dx = (x2 - x1) / length, dy = (y2 - y1) / length;
  path(fmt::format("M{} {}L{} {}L{} {}Z", px(x2 + dx * 4), px(y2 + dy * 4),
                   px(x2 - dx * 4 - dy * 3.5), px(y2 - dy * 4 + dx * 3.5),
                   px(x2 - dx * 4 + dy * 3.5), px(y2 - dy * 4 - dx * 3.5)),
       "solid");
}

void Svg::tag(double at_x, double at_y, int number) {
  circle(at_x, at_y, 8.5, "tag");
  text(at_x, at_y + 3.9, std::to_string(number), "tagtext", "middle");
}

std::string Svg::finish(std::string_view id, std::string_view title) const {
  return fmt::format(
      "<svg viewBox=\"0 0 {} {}\" role=\"img\" aria-labelledby=\"{}-t\">\n<title id=\"{}-t\">{}"
      "</title>\n{}</svg>\n",
      px(width_), px(height_), id, id, esc(title), body_);
}

}  // namespace underprop::report
