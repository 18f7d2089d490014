// The form of a question follows from the declaration of the field that it asks for.
#include "parts.hpp"

#include <utility>

namespace underprop::interview {
namespace {

using record::ValueKind;

struct KindOfForm {
  ValueKind kind;
  Form plain, fact;
};
constexpr KindOfForm forms[] = {
    {ValueKind::word, Form::word, Form::word},
    {ValueKind::flag, Form::yes_or_no, Form::yes_or_no},
    {ValueKind::whole, Form::count, Form::count_fact},
    {ValueKind::number, Form::degrees, Form::degrees},
    {ValueKind::length, Form::length, Form::length_fact},
    {ValueKind::mass, Form::mass_fact, Form::mass_fact},
    {ValueKind::volume, Form::volume_fact, Form::volume_fact},
    {ValueKind::force, Form::force, Form::force_fact},
    {ValueKind::pressure, Form::pressure, Form::pressure},
    {ValueKind::slope, Form::slope, Form::slope},
    {ValueKind::timber, Form::timber, Form::timber},
    {ValueKind::date, Form::date, Form::date},
    {ValueKind::point, Form::point, Form::point},
};

}  // namespace

void follow_declaration(Ask& ask, const record::Field& field) {
  if (!ask.form) {
    ask.form = Form::text;
    for (const KindOfForm& each : forms) {
      if (each.kind == field.kind) ask.form = field.may_be_range ? each.fact : each.plain;
    }
    if (field.several && field.kind == ValueKind::length) ask.form = Form::places;
    if (field.several && field.kind == ValueKind::name) ask.form = Form::names;
    if (field.several && field.kind == ValueKind::point) ask.form = Form::corners;
  }
  if (ask.words.empty()) ask.words = field.words;
  if (!ask.most && field.kind == ValueKind::whole) ask.most = static_cast<int>(field.high);
}

}  // namespace underprop::interview
