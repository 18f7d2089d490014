#include "underprop/report/model_export.hpp"

#include "underprop/report/report.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <map>

namespace underprop::report {

namespace {

using Json = nlohmann::ordered_json;

// From N and mm to N and m.
constexpr double in_m = 1e-3;
constexpr double moment = 1e-3;   // N mm to N m; also N mm/rad
constexpr double bending = 1e-6;  // N mm2 to N m2
constexpr double spring = 1e3;    // N/mm to N/m; also line loads

Json stiffness(double value, double scale) {
  if (!std::isfinite(value)) return "rigid";
  return value * scale;
}

Json fixity(double value) {
  if (!std::isfinite(value)) return false;  // not released
  if (value == 0.0) return true;            // released
  return value * moment;
}

Json end(const solver::EndFixity& fixed) {
  return {{"m", fixity(fixed.bending)}, {"t", fixity(fixed.torsion)}};
}

Json frame_json(const solver::Frame& frame, Json model) {
  const auto node_id = [&](int node) { return frame.nodes[static_cast<std::size_t>(node)].id; };
  for (const solver::Node& node : frame.nodes) {
    model["nodes"].push_back({{"id", node.id}, {"x", node.x * in_m}, {"y", node.y * in_m}});
  }
  for (const solver::Member& member : frame.members) {
    Json row{{"id", member.id},
             {"piece", member.piece},
             {"i", node_id(member.i)},
             {"j", node_id(member.j)},
             {"EI", member.EI * bending},
             {"kGA", std::isfinite(member.kGA) ? Json(member.kGA) : Json(nullptr)},
             {"GJ", member.GJ * bending}};
    row["rel_i"] = end(member.end_i);
    row["rel_j"] = end(member.end_j);
    model["members"].push_back(std::move(row));
  }
  model["links"] = Json::array();
  for (const solver::Link& link : frame.links) {
    model["links"].push_back({{"id", link.id},
                              {"i", node_id(link.i)},
                              {"j", node_id(link.j)},
                              {"k_w", stiffness(link.k_w, spring)},
                              {"compression_only", link.compression_only},
                              {"gap", link.gap * in_m}});
  }
  model["supports"] = Json::array();
  for (const solver::Support& support : frame.supports) {
    model["supports"].push_back({{"node", node_id(support.node)},
                                 {"k_w", stiffness(support.k_w, spring)},
                                 {"k_tx", stiffness(support.k_tx, moment)},
                                 {"k_ty", stiffness(support.k_ty, moment)},
                                 {"compression_only", support.compression_only},
                                 {"gap", support.gap * in_m}});
  }
  model["plates"] = Json::array();
  for (const solver::Plate& plate : frame.plates) {
    Json row{{"id", plate.id},
             {"x", plate.x * in_m},
             {"y", plate.y * in_m},
             {"contacts", Json::array()}};
    for (const solver::PlateContact& contact : plate.contacts) {
      row["contacts"].push_back({{"node", node_id(contact.node)},
                                 {"k_w", stiffness(contact.k_w, spring)},
                                 {"gap", contact.gap * in_m}});
    }
    model["plates"].push_back(std::move(row));
  }
  return model;
}

Json case_json(const solver::Frame& frame, const solver::LoadCase& load_case) {
  Json row{{"id", load_case.id},
           {"nodal", Json::array()},
           {"line", Json::array()},
           {"point", Json::array()}};
  for (const solver::NodalLoad& load : load_case.nodal) {
    const std::string id = load.plate >= 0 ? frame.plates[static_cast<std::size_t>(load.plate)].id
                                           : frame.nodes[static_cast<std::size_t>(load.node)].id;
    row["nodal"].push_back(
        {{"node", id}, {"Fz", load.Fz}, {"Mx", load.Mx * moment}, {"My", load.My * moment}});
  }
  for (const solver::LineLoad& load : load_case.line) {
    row["line"].push_back({{"member", frame.members[static_cast<std::size_t>(load.member)].id},
                           {"q1", load.q1 * spring},
                           {"q2", load.q2 * spring},
                           {"a", load.a * in_m},
                           {"b", load.b * in_m}});
  }
  for (const solver::PointLoad& load : load_case.point) {
    row["point"].push_back({{"member", frame.members[static_cast<std::size_t>(load.member)].id},
                            {"P", load.P},
                            {"a", load.a * in_m}});
  }
  return row;
}

Json result_json(const solver::Frame& frame, const assessment::ExportedCombination& combination) {
  const solver::Response& response = combination.response;
  if (response.mechanism) return {{"mechanism", *response.mechanism}};
  Json row;
  row["displacements"] = Json::object();
  for (std::size_t n = 0; n < frame.nodes.size(); ++n) {
    const solver::Displacement& d = response.displacements[n];
    row["displacements"][frame.nodes[n].id] = {d.w * in_m, d.tx, d.ty};
  }
  // One number per node: the sum where two supports meet.
  std::map<int, double> reactions;
  for (std::size_t s = 0; s < frame.supports.size(); ++s) {
    if (frame.supports[s].k_w != 0.0) reactions[frame.supports[s].node] += response.supports[s];
  }
  row["reactions"] = Json::object();
  for (const auto& [node, reaction] : reactions) {
    row["reactions"][frame.nodes[static_cast<std::size_t>(node)].id] = reaction;
  }
  row["links"] = Json::object();
  for (std::size_t l = 0; l < frame.links.size(); ++l)
    row["links"][frame.links[l].id] = response.links[l];
  row["plates"] = Json::object();
  for (std::size_t p = 0; p < frame.plates.size(); ++p) {
    const solver::PlateResponse& plate = response.plates[p];
    Json contacts = Json::object();
    for (std::size_t c = 0; c < plate.contacts.size(); ++c) {
      contacts[frame.nodes[static_cast<std::size_t>(frame.plates[p].contacts[c].node)].id] =
          plate.contacts[c];
    }
    row["plates"][frame.plates[p].id] = {{"w", plate.w * in_m},
                                         {"tx", plate.tx},
                                         {"ty", plate.ty},
                                         {"contacts", std::move(contacts)}};
  }
  row["members"] = Json::object();
  for (std::size_t m = 0; m < frame.members.size(); ++m) {
    const solver::MemberForces& f = combination.members[m];
    row["members"][frame.members[m].id] = {
        {"Mi", f.Mi * moment}, {"Mj", f.Mj * moment},     {"Vi", f.Vi},    {"Vj", f.Vj},
        {"T", f.T * moment},   {"Mmax", f.Mmax * moment}, {"Vmax", f.Vmax}};
  }
  return row;
}

}  // namespace

nlohmann::ordered_json model_json(const assessment::ExportedModels& models) {
  Json json{{"format", "underprop/model/1"}, {"notice", notice()}, {"models", Json::array()}};
  if (!models.why.empty()) json["not_modelled"] = models.why;
  for (const assessment::ExportedModel& exported : models.models) {
    Json model = frame_json(exported.frame, {{"bound", exported.bound}, {"stage", exported.stage}});
    for (const solver::LoadCase& load_case : exported.cases) {
      model["cases"].push_back(case_json(exported.frame, load_case));
    }
    model["combinations"] = Json::array();
    model["results"] = Json::object();
    for (const assessment::ExportedCombination& combination : exported.combinations) {
      Json factors = Json::object();
      for (const solver::CaseFactor& factor : combination.factors) {
        factors[exported.cases[static_cast<std::size_t>(factor.load_case)].id] = factor.factor;
      }
      model["combinations"].push_back({{"id", combination.id}, {"factors", std::move(factors)}});
      model["results"][combination.id] = result_json(exported.frame, combination);
    }
    json["models"].push_back(std::move(model));
  }
  return json;
}

}  // namespace underprop::report
