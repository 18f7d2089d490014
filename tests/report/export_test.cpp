// The exported model read back: what is in it suffices to repeat the analysis, for every bound and
// stage, by a solver that shares no code with ours.
#include "oracle/dense_frame.hpp"
#include "support/catch.hpp"
#include "support/decks.hpp"
#include "underprop/assessment/exported.hpp"
#include "underprop/report/model_export.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace export_test_file {

using namespace underprop;
using test::Json;

namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// Three joists on two or three rows of pads, eight boards, a small tub with two people; nothing said of the
/// contact of the pads nor of the joints of the boards. Invented.
Json small_deck(bool middle_row) {
  Json json = test::platform(2);
  Json& deck = json["deck"];
  deck["outline"] =
      Json::array({{"0 m", "0 m"}, {"1.1 m", "0 m"}, {"1.1 m", "1.0 m"}, {"0 m", "1.0 m"}});
  deck["joists"][0]["first"] = "100 mm";
  deck["joists"][0]["spacing"] = "450 mm";
  deck["joists"][0]["count"] = 3;
  deck["boards"].erase("joints");
  deck["supports"][0]["positions"] = {"150 mm", "850 mm"};
  if (middle_row) deck["supports"][0]["positions"] = {"150 mm", "500 mm", "850 mm"};
  deck["supports"][0]["footing"].erase("contact");
  Json& load = json["loads"][0];
  load["width"] = "700 mm";
  load["length"] = "500 mm";
  load["at"] = {"600 mm", "480 mm"};
  load["dry_mass"] = "40 kg";
  load["contents"] = "80 l";
  load["people"] = 2;
  return json;
}

/// A model of the export as a frame in N, m.
struct Read {
  solver::Frame frame;
  std::map<std::string, solver::LoadCase> cases;
  std::map<std::string, int> node, member, plate;
};

double stiffness(const Json& k) {
  if (k.is_string()) {
    REQUIRE(k == "rigid");
    return solver::rigid;
  }
  return k.get<double>();
}

double fixity(const Json& released) {
  if (released.is_boolean()) return released.get<bool>() ? 0.0 : solver::rigid;
  return released.get<double>();
}

Read read_back(const Json& model) {
  Read r;
  for (const Json& n : model.at("nodes")) {
    CHECK(r.node.emplace(n.at("id"), static_cast<int>(r.frame.nodes.size())).second);
    r.frame.nodes.push_back({n.at("id"), n.at("x"), n.at("y")});
  }
  for (const Json& m : model.at("members")) {
    CHECK(r.member.emplace(m.at("id"), static_cast<int>(r.frame.members.size())).second);
    solver::Member member;
    member.id = m.at("id");
    member.piece = m.at("piece");
    member.i = r.node.at(m.at("i"));
    member.j = r.node.at(m.at("j"));
    member.EI = m.at("EI");
    member.kGA = m.at("kGA").is_null() ? solver::rigid : m.at("kGA").get<double>();
    member.GJ = m.at("GJ").is_null() ? 0.0 : m.at("GJ").get<double>();
    member.end_i = {fixity(m.at("rel_i").at("m")), fixity(m.at("rel_i").at("t"))};
    member.end_j = {fixity(m.at("rel_j").at("m")), fixity(m.at("rel_j").at("t"))};
    r.frame.members.push_back(member);
  }
  std::set<std::string> links;
  for (const Json& l : model.at("links")) {
    CHECK(links.insert(l.at("id")).second);
    r.frame.links.push_back({l.at("id"), r.node.at(l.at("i")), r.node.at(l.at("j")),
                             stiffness(l.at("k_w")), l.at("compression_only"), l.at("gap")});
  }
  for (const Json& s : model.at("supports")) {
    r.frame.supports.push_back({"", r.node.at(s.at("node")), stiffness(s.at("k_w")),
                                stiffness(s.at("k_tx")), stiffness(s.at("k_ty")),
                                s.at("compression_only"), s.at("gap")});
  }
  for (const Json& p : model.at("plates")) {
    CHECK(r.node.count(p.at("id")) == 0);
    CHECK(r.plate.emplace(p.at("id"), static_cast<int>(r.frame.plates.size())).second);
    solver::Plate plate{p.at("id"), p.at("x"), p.at("y"), {}};
    for (const Json& c : p.at("contacts"))
      plate.contacts.push_back({r.node.at(c.at("node")), stiffness(c.at("k_w")), c.at("gap")});
    r.frame.plates.push_back(plate);
  }
  for (const Json& c : model.at("cases")) {
    solver::LoadCase load;
    load.id = c.at("id");
    for (const Json& n : c.at("nodal")) {
      const std::string where = n.at("node");
      const bool on_plate = r.plate.count(where) != 0;
      load.nodal.push_back({on_plate ? -1 : r.node.at(where), on_plate ? r.plate.at(where) : -1,
                            n.at("Fz"), n.at("Mx"), n.at("My")});
    }
    for (const Json& q : c.at("line"))
      load.line.push_back(
          {r.member.at(q.at("member")), q.at("q1"), q.at("q2"), q.at("a"), q.at("b")});
    for (const Json& q : c.at("point"))
      load.point.push_back({r.member.at(q.at("member")), q.at("P"), q.at("a")});
    CHECK(r.cases.emplace(load.id, load).second);
  }
  return r;
}

solver::LoadCase combined(const Read& r, const Json& factors) {
  solver::LoadCase sum;
  for (const auto& [id, factor] : factors.items()) {
    const double f = factor.get<double>();
    for (solver::NodalLoad n : r.cases.at(id).nodal) {
      n.Fz *= f;
      n.Mx *= f;
      n.My *= f;
      sum.nodal.push_back(n);
    }
    for (solver::LineLoad q : r.cases.at(id).line) {
      q.q1 *= f;
      q.q2 *= f;
      sum.line.push_back(q);
    }
    for (solver::PointLoad p : r.cases.at(id).point) {
      p.P *= f;
      sum.point.push_back(p);
    }
  }
  return sum;
}

/// Total force and moments about the origin of loads.
std::array<double, 3> total(const Read& r, const solver::LoadCase& load) {
  std::array<double, 3> sum{};
  const auto put = [&](double Fz, double x, double y) {
    sum[0] += Fz;
    sum[1] += Fz * y;
    sum[2] -= Fz * x;
  };
  const auto on = [&](int member, double Fz, double a) {
    const solver::Node& i = r.frame.nodes[at(r.frame.members[at(member)].i)];
    const solver::Node& j = r.frame.nodes[at(r.frame.members[at(member)].j)];
    const double t = a / std::hypot(j.x - i.x, j.y - i.y);
    put(Fz, i.x + t * (j.x - i.x), i.y + t * (j.y - i.y));
  };
  for (const solver::NodalLoad& n : load.nodal) {
    if (n.plate >= 0) {
      put(n.Fz, r.frame.plates[at(n.plate)].x, r.frame.plates[at(n.plate)].y);
    } else {
      put(n.Fz, r.frame.nodes[at(n.node)].x, r.frame.nodes[at(n.node)].y);
    }
    sum[1] += n.Mx;
    sum[2] += n.My;
  }
  for (const solver::LineLoad& q : load.line) {
    const double L = q.b - q.a;
    on(q.member, q.q1 * L, 0.5 * (q.a + q.b));
    on(q.member, 0.5 * (q.q2 - q.q1) * L, q.a + 2.0 / 3.0 * L);
  }
  for (const solver::PointLoad& p : load.point) on(p.member, p.P, p.a);
  return sum;
}

/// The reported contact state made two-way: open contacts leave, closed ones keep their gap as a force.
/// The contact problem has one solution in forces, so a state that satisfies every sign is the one.
void fix_state(Read& r, solver::LoadCase& load, const Json& result) {
  std::vector<solver::Link> links;
  for (solver::Link l : r.frame.links) {
    if (l.compression_only) {
      if (!(result.at("links").at(l.id).get<double>() > 0.0)) continue;
      l.compression_only = false;
      load.nodal.push_back({l.i, -1, -l.k_w * l.gap, 0, 0});
      load.nodal.push_back({l.j, -1, l.k_w * l.gap, 0, 0});
      l.gap = 0.0;
    }
    links.push_back(l);
  }
  r.frame.links = links;
  for (solver::Support& s : r.frame.supports) {
    if (!s.compression_only) continue;
    const std::string& node = r.frame.nodes[at(s.node)].id;
    const bool presses = result.at("reactions").contains(node) &&
                         result.at("reactions").at(node).get<double>() > 0.0;
    if (!presses) s.k_w = 0.0;
    s.compression_only = false;
    if (presses) load.nodal.push_back({s.node, -1, -s.k_w * s.gap, 0, 0});
    s.gap = 0.0;
  }
  for (solver::Plate& p : r.frame.plates) {
    const Json& contacts = result.at("plates").at(p.id).at("contacts");
    std::erase_if(p.contacts, [&](const solver::PlateContact& c) {
      return !(contacts.at(r.frame.nodes[at(c.node)].id).get<double>() > 0.0);
    });
  }
}

void check_by_the_twin(Read r, solver::LoadCase load, const Json& result) {
  const solver::Frame as_told = r.frame;
  fix_state(r, load, result);
  const oracle::DenseAnswer twin = oracle::DenseFrame(r.frame, load).solve();
  REQUIRE_FALSE(twin.mechanism);
  double largest = 0.0, turned = 0.0, force = 0.0, moment = 0.0;
  for (const solver::Displacement& d : twin.displacements) {
    largest = std::max(largest, std::abs(d.w));
    turned = std::max({turned, std::abs(d.tx), std::abs(d.ty)});
  }
  for (const auto& m : twin.members) {
    force = std::max({force, std::abs(m[2]), std::abs(m[3])});
    moment = std::max({moment, std::abs(m[0]), std::abs(m[1])});
  }
  double off = 0.0;
  std::vector<double> w;
  for (std::size_t n = 0; n < as_told.nodes.size(); ++n) {
    const Json& d = result.at("displacements").at(as_told.nodes[n].id);
    w.push_back(d.at(0));
    off = std::max({off, std::abs(w.back() - twin.displacements[n].w) / largest,
                    std::abs(d.at(1).get<double>() - twin.displacements[n].tx) / turned,
                    std::abs(d.at(2).get<double>() - twin.displacements[n].ty) / turned});
  }
  for (std::size_t m = 0; m < as_told.members.size(); ++m) {
    const Json& f = result.at("members").at(as_told.members[m].id);
    const char* names[] = {"Mi", "Mj", "Vi", "Vj"};
    for (std::size_t k = 0; k < 4; ++k) {
      const double told = f.at(names[k]);
      off = std::max(off, std::abs(told - twin.members[m][k]) / (k < 2 ? moment : force));
      CHECK(std::abs(told) <= f.at(k < 2 ? "Mmax" : "Vmax").get<double>() * (1 + 1e-9) + 1e-12);
    }
  }
  CHECK(off < 1e-8);
  // The contact laws on the model as told, from its own displacements.
  const double small = 1e-8 * force;
  for (const solver::Link& l : as_told.links) {
    const double N = result.at("links").at(l.id);
    if (!std::isfinite(l.k_w)) continue;
    const double press = l.k_w * (w[at(l.j)] - w[at(l.i)] - l.gap);
    CHECK(std::abs(N - (l.compression_only ? std::max(0.0, press) : press)) < small);
  }
  for (const solver::Support& s : as_told.supports) {
    if (s.k_w == 0.0 || !std::isfinite(s.k_w)) continue;
    const double press = s.k_w * (-w[at(s.node)] - s.gap);
    const double R = result.at("reactions").at(as_told.nodes[at(s.node)].id);
    CHECK(std::abs(R - (s.compression_only ? std::max(0.0, press) : press)) < small);
  }
}

bool any(const std::set<std::string>& all, const std::string& words) {
  return std::any_of(all.begin(), all.end(),
                     [&](const std::string& s) { return s.find(words) != std::string::npos; });
}

void check_export(const Json& survey, std::size_t at_least, std::set<std::string>& bounds,
                  std::set<std::string>& stages) {
  const record::Survey deck = test::read(survey);
  const auto standard = assessment::standard_for(deck.standard);
  const auto exported = assessment::exported_models(deck, *standard);
  INFO(exported.why);
  const Json json = Json::parse(report::model_json(exported).dump());
  CHECK(json.at("models").size() >= at_least);
  for (const Json& model : json.at("models")) {
    INFO(model.at("bound") << "; " << model.at("stage"));
    CHECK(bounds
              .insert(model.at("bound").get<std::string>() + "; " +
                      model.at("stage").get<std::string>())
              .second);
    stages.insert(model.at("stage").get<std::string>());
    const Read r = read_back(model);
    CHECK(model.at("results").size() == model.at("combinations").size());
    REQUIRE(!model.at("combinations").empty());
    std::size_t number = 0;
    for (const Json& combination : model.at("combinations")) {
      const std::string id = combination.at("id");
      INFO(id);
      CHECK(r.cases.count(id) == 0);
      const Json& result = model.at("results").at(id);
      if (result.contains("mechanism")) {  // a joist on one pad
        CHECK(any({model.at("bound").get<std::string>()}, "absent"));
        continue;
      }
      const solver::LoadCase load = combined(r, combination.at("factors"));
      std::array<double, 3> sum = total(r, load);
      const double down = std::abs(sum[0]);
      CHECK(down > 0.0);
      for (const auto& [node, reaction] : result.at("reactions").items()) {
        const solver::Node& n = r.frame.nodes[at(r.node.at(node))];
        sum[0] += reaction.get<double>();
        sum[1] += reaction.get<double>() * n.y;
        sum[2] -= reaction.get<double>() * n.x;
      }
      CHECK(std::abs(sum[0]) < 1e-8 * down);
      CHECK(std::abs(sum[1]) < 1e-8 * down);
      CHECK(std::abs(sum[2]) < 1e-8 * down);
      // The slow twin looks at the first and the last; of the pads unlike their neighbours at every third.
      const bool one_pad = any({model.at("bound").get<std::string>()}, "among");
      if ((number == 0 || number + 1 == model.at("combinations").size()) &&
          (!one_pad || bounds.size() % 3 == 0))
        check_by_the_twin(r, load, result);
      ++number;
    }
  }
}

}  // namespace

TEST_CASE("A dense twin repeats every bound of the exported model from its text alone",
          "[oracle][law]") {
  std::set<std::string> bounds, stages;
  check_export(small_deck(true), 20, bounds, stages);
  for (const char* words :
       {"soft ground, soft base", "soft ground, stiff base", "stiff ground, timber after creep",
        "boards jointed", "stiff among soft", "soft among stiff", "absent",
        "service at likely facts: middling ground"}) {
    INFO(words);
    CHECK(any(bounds, words));
  }
}

TEST_CASE("New pieces are exported with the stage before them and the gaps it leaves",
          "[oracle][law]") {
  // A third pad under the middle joist, put there after the deck has settled.
  Json json = small_deck(false);
  Json pad = json["deck"]["supports"][0];
  pad["name"] = "N";
  pad["positions"] = {"500 mm"};
  pad["under"] = "J2";
  pad["added"] = true;
  json["deck"]["supports"].push_back(pad);
  std::set<std::string> bounds, stages;
  check_export(json, 20, bounds, stages);
  CHECK(any(stages, "before the works"));
  CHECK(any(stages, "meet the settled deck through gaps"));
}

}  // namespace export_test_file
