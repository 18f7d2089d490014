#include "shared.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace underprop::standards {

GroundModuli moduli_of(const Soil& soil) {
  return {megapascals(soil.E_soft), megapascals(std::sqrt(soil.E_soft * soil.E_stiff)),
          megapascals(soil.E_stiff), soil.poisson, soil.E_source};
}

// --- bearing and the ends of joists -----------------------------------------------------------------

Length contact_line(Sheet& sheet, const BearingDemand& d, const char* symbol,
                    const Cited& packers_in_full, const Cited& share) {
  if (d.packers <= static_cast<int>(packers_in_full.value)) {
    sheet.given(symbol, d.length);
    return d.length;
  }
  sheet.given("packers", d.packers, "");
  sheet.given("c", d.length);
  sheet.taken("share", "of the contact under more packers than count in full", "", share);
  sheet.line(symbol, "share c", sheet.unit_of(d.length), share.source);
  return share.value * d.length;
}

BearingDemand bearing_on_seat(Sheet& sheet, const EndDemand& d, const char* symbol, Length unknown,
                              const Citation& unknown_source) {
  BearingDemand bearing;
  bearing.timber = d.joist;
  bearing.width = d.joist_breadth;
  bearing.length = d.seat.value_or(unknown);
  if (d.seat) {
    sheet.given(symbol, *d.seat);
  } else {
    sheet.taken(symbol, "seat, not recorded", unknown, unknown_source);
  }
  return bearing;
}

int hanger_holes(const HangerNails& tables, Length joist_depth) {
  int nails = tables.holes.empty() ? 0 : tables.holes.front().nails;
  for (const HangerHoles& row : tables.holes) {
    if (joist_depth + mm(0.5) >= row.joist_depth) nails = row.nails;
  }
  return nails;
}

int hanger_nails_line(Sheet& sheet, const EndDemand& d, const HangerNails& tables) {
  switch (d.nails_known) {
    case NailsKnown::counted:
      sheet.given("nails", d.fasteners, "");
      return d.fasteners;
    case NailsKnown::all_holes: {
      const int holes = hanger_holes(tables, d.joist_depth);
      sheet.taken(
          "nails",
          "assumed: every hole nailed, not counted; the smallest usual hanger of that depth", holes,
          "", tables.holes_source);
      return holes;
    }
    case NailsKnown::of_total:
      sheet.taken("nails",
                  "assumed: part of all nails in the hanger, those into the carrying piece not "
                  "counted apart",
                  d.fasteners, "",
                  {"judgement", "half of a hanger's nails or more go into what carries it"});
      return d.fasteners;
    case NailsKnown::assumed:
      sheet.taken("nails", "assumed: not counted", d.fasteners, "",
                  {"judgement", "half the holes of a hanger are often left empty"});
      return d.fasteners;
  }
  throw std::invalid_argument("joist end: unknown count of nails");
}

void hanger_counted_line(Sheet& sheet, const HangerNails& tables) {
  sheet.taken("n_max", "nails of a hanger of unknown make that count", tables.most, "",
              tables.source);
  sheet.line("n", "min(nails; n_max), in the supporting member", "", tables.source);
}

double stated_hanger_lines(Sheet& sheet, const EndDemand& d, const char* symbol,
                           const HangerNails& tables) {
  const int holes = hanger_holes(tables, d.joist_depth);
  if (d.all_holes_nailed || d.fasteners >= holes) {
    return sheet.taken(symbol, "stated, all holes nailed", *d.stated_capacity, Citation{});
  }
  hanger_nails_line(sheet, d, tables);
  sheet.taken("stated", "with all holes nailed", *d.stated_capacity, Citation{});
  sheet.taken("holes", "the smallest usual hanger for that depth has, in the carrying piece", holes,
              "", tables.holes_source);
  return sheet.line(symbol, "stated nails / holes", sheet.unit_of(Force()),
                    {"judgement", "empty holes take their share off what is stated"});
}

// --- ledgers ----------------------------------------------------------------------------------------

void line_of_pull(Sheet& sheet, const LedgerFixingDemand& d, const char* symbol, bool tested) {
  if (!(d.couple_arm.value() > 0.0)) {
    sheet.given(symbol, d.pull);
    return;
  }
  if (tested) {
    sheet.taken(symbol, "0: tested with joists hung on the ledger's face", Force(),
                {"judgement", "such a value holds the couple as well"});
    return;
  }
  sheet.given("V_1", d.shear);
  sheet.given("a", d.couple_arm);
  sheet.taken("z", "lever of the fixings over where the wall presses, the least if not recorded",
              d.couple_lever, {"statics", "the fixing pulled most"});
  sheet.line(symbol, "V_1 a / z", sheet.unit_of(d.shear),
             {"statics", "moments about where the wall presses"});
}

double rows_in_place(Sheet& sheet, const LedgerFixingDemand& d, Length to_top, Length to_bottom,
                     Length tolerance, const Citation& source) {
  if (d.heights.empty()) return 1.0;
  const auto kept = std::count_if(d.heights.begin(), d.heights.end(), [&](Length height) {
    return height + tolerance >= to_bottom && d.ledger_depth - height + tolerance >= to_top;
  });
  const double share = static_cast<double>(kept) / static_cast<double>(d.heights.size());
  if (share == 1.0) return share;
  sheet.given("h_ledger", d.ledger_depth);
  sheet.taken("a_top", "least distance of a fixing to the upper edge, towards which it presses",
              to_top, source);
  sheet.taken("a_bottom", "least distance to the lower edge", to_bottom, source);
  return sheet.taken("rows", "share of the recorded rows that keep both", share, "", source);
}

void line_of_shear(Sheet& sheet, const LedgerFixingDemand& d, const char* symbol) {
  if (d.share != LedgerShare::neighbours) {
    sheet.given(symbol, d.shear);
    return;
  }
  sheet.taken(symbol, "mean of the fixings within one spacing of joists or fixings either side",
              d.shear,
              {"judgement",
               "fixings in wood yield and share out (static theorem; EN 1995-1-1 5.1, from "
               "memory); tested values stem from such means"});
}

bool may_hold_pull(const LedgerFixingDemand& d) {
  return d.sound && d.fixing != FastenerKind::nail &&
         (d.wall == BandKind::timber_band || d.wall == BandKind::solid_masonry ||
          d.wall == BandKind::concrete);
}

Citation stated_pull_line(Sheet& sheet, const LedgerFixingDemand& d, const char* symbol,
                          const Cited& share, const Citation& of_sum) {
  if (d.stated_pull_out) {
    sheet.taken(symbol, "stated for the fixing, pulled out of the wall", *d.stated_pull_out,
                Citation{});
    return of_sum;
  }
  sheet.taken("R_s", "stated for the fixing down the wall", *d.stated_capacity, Citation{});
  sheet.taken("share",
              "of it that counts against a pull, until the maker's pull-out figure is recorded", "",
              share);
  sheet.line(symbol, "share R_s", sheet.unit_of(Force()), share.source);
  return share.source;
}

Check pulled_and_sheared(Sheet& sheet, double sheared, const PullAndShear& words) {
  if (!std::isfinite(sheared)) {
    return sheet.nothing(
        words.pull, std::string("0: such a ") + words.fixing + " carries nothing down the wall",
        words.nothing);
  }
  sheet.taken("u_v", std::string("V_1 over the ") + words.down + " down the wall, the check before",
              sheared, "", words.of_shear);
  sheet.line("T_v", words.sum, sheet.unit_of(Force()), words.of_sum);
  return sheet.finish("T_v", words.resistance, words.governing);
}

// --- footings ---------------------------------------------------------------------------------------

namespace {

void load_lines(Sheet& sheet, const GroundDemand& d, const FootingWords& words) {
  if (d.post_weight.value() == 0.0) {
    sheet.given(words.load, d.load);
    return;
  }
  sheet.given(words.from_deck, d.load);
  sheet.taken("W_p", "weight of the post", d.post_weight, Citation{});
  sheet.line(words.load, std::string(words.from_deck) + " + W_p", sheet.unit_of(d.load),
             words.pressure);
}

}  // namespace

Check screw_pile(const GroundDemand& d, const FootingWords& words, Shown shown, Units units) {
  Sheet sheet(CheckKind::ground, shown, units);
  load_lines(sheet, d, words);
  const Citation source{"judgement", "a screw pile carries what its installer's torque sheet says"};
  if (!d.stated_capacity || d.stated_capacity->value() == 0.0) {
    return sheet.nothing(words.load, "0: no torque sheet, no capacity", source);
  }
  sheet.taken("R_s", words.stated, *d.stated_capacity, source);
  return sheet.finish(words.load, "R_s", source);
}

void footing_given(Sheet& sheet, const GroundDemand& d, const FootingWords& words) {
  load_lines(sheet, d, words);
  sheet.given("B", d.width);
  sheet.given("L", d.length);
  sheet.given("t", d.thickness);
  sheet.given("e", abs(d.offset));
  sheet.given("b_c", d.contact_width);
  sheet.given("l_c", d.contact_length);
}

Check footing_fails(Sheet& sheet, const FootingWords& words, const char* why,
                    const Citation& source) {
  sheet.line("q", std::string(words.load) + " / (B L) + q_own", sheet.unit_of(Pressure()),
             words.pressure);
  return sheet.nothing("q", why, source);
}

Presumed presumed_line(Sheet& sheet, const GroundDemand& d, const Soil& soil, const Soil& topsoil,
                       bool deep) {
  const auto outlook = static_cast<std::size_t>(d.outlook);
  Presumed p;
  p.in_topsoil = !d.below_topsoil && d.soil != SoilKind::rock;
  p.bedded = !p.in_topsoil && deep;
  p.pressure = (p.bedded ? soil.bedded : soil.surface)[outlook];
  p.from = &soil;
  if (d.stated_pressure && !p.in_topsoil) {
    p.stated = true;
    sheet.taken("q_presumed", "stated for this ground", *d.stated_pressure, Citation{});
    p.pressure = sheet.last("q_presumed").value;
    return p;
  }
  if (p.in_topsoil && topsoil.surface[outlook] < p.pressure) {
    p.pressure = topsoil.surface[outlook];
    p.from = &topsoil;
  }
  sheet.taken("q_presumed", p.from->name + (p.bedded ? ", bedded" : ", on the surface"), p.pressure,
              sheet.unit_of(Pressure()), p.from->source);
  return p;
}

bool working_area_lines(Sheet& sheet, const GroundDemand& d, const FootingWords& words,
                        bool spreads) {
  const std::string idle = d.spreads ? "" : ", cracked";
  const char* unit = sheet.unit_of(d.width);
  const double B = sheet.line(
      "B'", spreads ? "min(b_c + 2 s; B - 2 e)" : "min(b_c; B - 2 e)" + idle, unit, words.area);
  const double L =
      sheet.line("L'", spreads ? "min(l_c + 2 s; L)" : "min(l_c; L)" + idle, unit, words.area);
  if (!(B > 0.0) || !(L > 0.0)) return false;
  sheet.line("q", std::string(words.load) + " / (B' L') + q_own", sheet.unit_of(Pressure()),
             words.pressure);
  return true;
}

// --- members ----------------------------------------------------------------------------------------

Check sum_or_alone(Sheet& sheet, const char* alone, const Citation& axial, const Citation& sum) {
  const double together = sheet.last("sum").value;
  const Citation& governing = sheet.line("alone", alone, "", axial) > together ? axial : sum;
  sheet.line("used", "max(sum; alone)", "", governing);
  sheet.taken("limit", "of both", 1.0, "", governing);
  return sheet.finish("used", "limit", governing);
}

Check upright(Sheet& sheet, const std::string& ratio, double limit, bool ends_held, bool edge_held,
              const Citation& source) {
  sheet.taken("limit",
              "largest " + ratio +
                  (!ends_held  ? ": ends not held"
                   : edge_held ? ": ends and compression edge held"
                               : ": ends held"),
              limit, "", source);
  return sheet.finish("ratio", "limit", source);
}

}  // namespace underprop::standards
