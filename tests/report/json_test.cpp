// The keys are those of our own published schema, data/schema/result.json.
#include "support/catch.hpp"

#include "report/sample_report.hpp"
#include "report/schema.hpp"

#include <limits>

namespace json_test_file {

using namespace underprop;
using sample::Json;

namespace {

void require_no_faults(const std::string& name, const Json& value) {
  const std::vector<std::string> faults = sample::Schema().faults(name, value);
  for (const std::string& fault : faults) UNSCOPED_INFO(fault);
  CHECK(faults.empty());
}

}  // namespace

TEST_CASE("results as JSON follow the published schema", "[report][json]") {
  const report::Report r = sample::invented_report();
  require_no_faults("assess", report::assessment_json(r.assessment));
  require_no_faults("retrofit", report::retrofit_json(*r.retrofit));
  require_no_faults("compare", report::comparison_json(*r.comparison));
  require_no_faults("assess", report::assessment_json({}));
  require_no_faults("retrofit", report::retrofit_json({}));
  require_no_faults("compare", report::comparison_json({}));
  placement::Placement placement;
  placement.spots.resize(2);
  placement.spots[1].utilisation = std::numeric_limits<double>::infinity();
  placement.best = placement.spots.front();
  require_no_faults("place", report::placement_json(placement));
  require_no_faults("place", report::placement_json({}));
}

TEST_CASE("the schema test notices a missing and an undescribed key", "[report][json]") {
  Json value = report::assessment_json(sample::invented_assessment());
  value.erase("verdict");
  value["surprise"] = 1;
  CHECK(sample::Schema().faults("assess", value).size() == 2);
}

TEST_CASE("every JSON result carries the notice", "[report][json][notice]") {
  const report::Report r = sample::invented_report();
  CHECK(report::assessment_json(r.assessment)["notice"] == report::notice());
  CHECK(report::retrofit_json(*r.retrofit)["notice"] == report::notice());
  CHECK(report::comparison_json(*r.comparison)["notice"] == report::notice());
  CHECK(report::retrofit_json(*r.retrofit)["plan"]["assessment"]["notice"] == report::notice());
}

TEST_CASE("what is not finite is null, and says why", "[report][json]") {
  const Json json = report::assessment_json(sample::invented_assessment());
  CHECK(json["utilisation"].is_null());
  CHECK(json["governing"]["utilisation"].is_null());
  CHECK(json["governing"]["no_resistance"] == true);
  CHECK(json["governing"]["passes"] == false);
  CHECK(json["unknowns"][1]["swing"].is_null());
  CHECK(Json::parse(json.dump()) == json);
}

TEST_CASE("utilisation in JSON is not rounded", "[report][json]") {
  CHECK(report::assessment_json(sample::invented_assessment())["utilisation_service"] == 0.8123);
}

TEST_CASE("a utilisation that is not a number never passes", "[report][json]") {
  assessment::Assessment a = sample::invented_assessment();
  a.governing->check.utilisation = std::numeric_limits<double>::quiet_NaN();
  const Json json = report::assessment_json(a);
  CHECK(json["governing"]["utilisation"].is_null());
  CHECK(json["governing"]["passes"] == false);
}

TEST_CASE("findings stand worst first, service among safety", "[report][json]") {
  const Json json = report::assessment_json(sample::invented_assessment());
  double last = std::numeric_limits<double>::infinity();
  bool service = false;
  for (const Json& finding : json["findings"]) {
    const double use = finding["utilisation"].is_null() ? std::numeric_limits<double>::infinity()
                                                        : finding["utilisation"].get<double>();
    CHECK(use <= last);
    last = use;
    service = service || finding["kind"] == "service";
  }
  CHECK(service);
}

}  // namespace json_test_file
