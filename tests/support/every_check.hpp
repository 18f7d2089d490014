// Every check of a standard's interface over a spread of demands. Invented pieces.
#pragma once

#include "underprop/standards/standard.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace underprop::test {

/// Asks `standard` for each of its checks, in every kind of piece and combination of strength and
/// uplift, and hands each answer to `take`.
inline void every_check(const standards::Standard& standard,
                        const std::function<void(const standards::Check&)>& take) {
  using namespace underprop::standards;
  std::vector<Combination> strength;
  for (const Purpose purpose : {Purpose::strength, Purpose::uplift}) {
    const std::vector<Combination> all = standard.combinations(purpose, {false, true});
    strength.push_back(all.front());
    strength.push_back(all.back());
  }
  const std::vector<std::string> names = standard.timber_names();
  std::vector<Timber> timbers;
  for (const std::string& name : {names.front(), names[names.size() / 2], names.back()}) {
    for (const auto& [b, h] :
         {std::pair{38.1, 184.2}, {89.0, 89.0}, {139.7, 139.7}, {47.0, 220.0}, {139.7, 38.1}}) {
      for (const bool incised : {false, true}) {
        try {
          timbers.push_back(standard.timber(name, Role::joist, mm(b), mm(h), incised));
        } catch (const NoSuchTimber&) {
          continue;  // not every table has every class at every size
        }
      }
    }
  }
  const Combination ground = standard.combinations(Purpose::ground, {}).front();

  for (const Timber& t : timbers) {
    for (const bool ends : {true, false}) {
      for (const bool edge : {true, false}) {
        take(standard.held_upright(t.breadth, t.depth, ends, edge));
      }
    }
    for (const double free : {25.0, 450.0})
      take(standard.board_overhang(t, mm(120), mm(28), mm(free), kilonewtons(1.4)));
    for (const double span : {300.0, 610.0}) {
      for (const bool continuous : {true, false}) {
        take(standard.board_point_load(t, mm(120), mm(28), mm(span), continuous, kilonewtons(1.4)));
      }
    }
    for (const Combination& c : strength) {
      for (const double unbraced : {0.0, 400.0, 1800.0, 6000.0}) {
        for (const bool held : {true, false}) {
          BendingDemand d;
          d.timber = t;
          d.breadth = t.breadth;
          d.depth = t.depth;
          d.moment = Moment(0.8e6);
          d.unbraced = mm(unbraced);
          d.ends_held = held;
          d.edge_held = unbraced == 0.0;
          d.sharing = held;
          take(standard.bending(d, c));
        }
      }
      for (const double notch : {0.0, 12.0, 60.0}) {
        ShearDemand d;
        d.timber = t;
        d.breadth = t.breadth;
        d.depth = max(t.depth, mm(70));
        d.shear = kilonewtons(3);
        d.notch_depth = mm(notch);
        d.notch_distance = mm(40);
        take(standard.shear(d, c));
      }
      for (const double end : {0.0, 20.0, 200.0}) {
        for (const int packers : {0, 3}) {
          for (const std::optional<Length> clear :
               {std::optional<Length>{}, std::optional<Length>{mm(30)},
                std::optional<Length>{mm(900)}}) {
            BearingDemand d;
            d.timber = t;
            d.force = kilonewtons(5);
            d.width = t.breadth;
            d.length = mm(packers == 0 ? 75 : 180);
            d.end_distance = mm(end);
            d.depth = t.depth;
            d.packers = packers;
            d.clear_to_next = clear;
            take(standard.bearing(d, c));
          }
        }
      }
      for (const double height : {0.0, 100.0, 900.0, 2400.0}) {
        for (const double moment : {0.0, 2e5}) {
          for (const int feet : {0, 1, 2}) {
            ColumnDemand d;
            d.timber = t;
            d.breadth = t.breadth;
            d.depth = t.depth;
            d.height = mm(height);
            d.axial = kilonewtons(9);
            d.moment = Moment(moment);
            d.braced = feet != 1;
            d.base_fixed = feet == 2;
            take(standard.column(d, c));
            if (feet == 2) {
              d.braced = false;
              take(standard.column(d, c));
            }
          }
        }
      }
      for (const EndKind kind : {EndKind::hanger, EndKind::ledger_strip, EndKind::resting,
                                 EndKind::end_grain, EndKind::skew_nails}) {
        for (const int fasteners : {0, 3, 6, 12}) {
          for (const bool stated : {false, true}) {
            EndDemand d;
            d.kind = kind;
            d.joist = d.carrier = t;
            d.joist_breadth = t.breadth;
            d.joist_depth = t.depth;
            d.carrier_breadth = mm(45);
            d.shear = kilonewtons(3);
            d.fasteners = fasteners;
            if (stated) d.stated_capacity = kilonewtons(4);
            if (fasteners > 3) d.seat = mm(45);
            take(standard.joist_end(d, c));
            d.sound = false;
            take(standard.joist_end(d, c));
          }
        }
      }
      for (const BandKind wall :
           {BandKind::timber_band, BandKind::solid_masonry, BandKind::concrete, BandKind::veneer}) {
        for (const FastenerKind fixing :
             {FastenerKind::bolt, FastenerKind::lag_screw, FastenerKind::screw, FastenerKind::nail,
              FastenerKind::anchor}) {
          for (const double diameter : {5.0, 7.0, 8.0, 10.0, 12.7, 16.0, 31.0}) {
            for (const bool stated : {false, true}) {
              LedgerFixingDemand d;
              d.wall = wall;
              d.fixing = fixing;
              d.diameter = mm(diameter);
              d.ledger = t;
              d.ledger_thickness = mm(45);
              d.ledger_depth = mm(220);
              d.shear = kilonewtons(1.5);
              if (stated) d.stated_capacity = kilonewtons(3);
              d.pull = kilonewtons(0.7);
              take(standard.ledger_fixing(d, c));
              take(standard.ledger_pull_off(d, c));
              d.couple_arm = mm(70);  // joists hung on the ledger's face
              d.couple_lever = mm(88);
              take(standard.ledger_pull_off(d, c));
              d.penetration = mm(80);
              take(standard.ledger_fixing(d, c));
              take(standard.ledger_pull_off(d, c));
              d.stated_pull_out = kilonewtons(4);
              take(standard.ledger_pull_off(d, c));
            }
          }
        }
      }
      for (const int bolts : {0, 1, 2, 5}) {
        for (const double diameter : {5.0, 10.0, 12.7, 20.0, 31.0}) {
          for (const bool one_side : {true, false}) {
            SideBoltDemand d;
            d.bearer = d.post = t;
            d.bearer_breadth = mm(90);
            d.bearer_depth = mm(235);
            d.post_breadth = mm(100);
            d.bolts = bolts;
            d.diameter = mm(diameter);
            d.shear = kilonewtons(6);
            d.one_side = one_side;
            for (const double end : {600.0, 90.0, 45.0, 15.0}) {
              if (end < 500.0) d.end_distance = mm(end);
              take(standard.side_bolts(d, c));
            }
          }
        }
      }
      for (const HoldDownKind kind : {HoldDownKind::nothing, HoldDownKind::nailed,
                                      HoldDownKind::screwed, HoldDownKind::strapped}) {
        for (const bool stated : {false, true}) {
          HoldDownDemand d;
          d.kind = kind;
          d.joist = d.bearer = t;
          d.uplift = kilonewtons(0.4);
          if (stated) d.stated_capacity = kilonewtons(1);
          take(standard.hold_down(d, c));
        }
      }
    }
  }
  for (const SoilKind soil :
       {SoilKind::unknown, SoilKind::topsoil, SoilKind::soft_clay, SoilKind::firm_clay,
        SoilKind::stiff_clay, SoilKind::loose_sand, SoilKind::medium_sand, SoilKind::dense_sand,
        SoilKind::gravel, SoilKind::rock}) {
    for (const FootingType type : {FootingType::pad, FootingType::strip, FootingType::screw_pile}) {
      for (const double side : {200.0, 450.0, 900.0}) {
        for (const double depth : {0.0, 450.0, 900.0}) {
          for (const double offset : {0.0, 40.0, 400.0}) {
            for (const bool good : {true, false}) {
              GroundDemand d;
              d.type = type;
              d.soil = soil;
              d.load = kilonewtons(6);
              d.width = mm(side);
              d.length = mm(1.5 * side);
              d.thickness = mm(150);
              d.contact_width = d.contact_length = mm(good ? 100 : 0);
              d.depth = mm(depth);
              d.offset = mm(offset);
              d.below_topsoil = good;
              d.waterlogged = !good;
              d.spreads = good;
              if (good) d.stated_capacity = kilonewtons(10);
              if (offset > 0.0) d.post_weight = kilonewtons(0.15);
              take(standard.ground(d, ground));
            }
          }
        }
      }
    }
  }
}

}  // namespace underprop::test
