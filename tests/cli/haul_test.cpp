// What hauling costs, as an owner asks. Source: capital recovery by the textbook formula (ASABE
// EP496), written out here anew; the rest follows from the account's own day.
#include "tests/cli/run_program.h"

#include <cmath>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace haylane {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using testing::has;
using testing::Ran;
using testing::run_program;

class Haul : public ::testing::Test {
  protected:
    void SetUp() override {
        const std::string ranch = std::string(HAYLANE_SOURCE_DIR) + "/sample-maps/brindle-coulee";
        ASSERT_EQ(run_program(folder_, "new " + book() + " --from '" + ranch + "'").code, 0);
    }
    Ran run(const std::string& words) const {
        return run_program(folder_, "haul " + book() + " " + words);
    }
    std::string book() const { return (folder_.path() / "ranch.gpkg").string(); }
    fs::path path(const std::string& name) const { return folder_.path() / name; }

  private:
    testing::TempFolder folder_;
};

TEST_F(Haul, WritesItsPapersAndWeighsAMachine) {
    const Ran ran = run(
        "-o " + path("out").string() +
        " --buy 'name=Peeler;price=40000;end_value=10000;years=10;rate_pct=4;days=120;quote=30'");
    ASSERT_EQ(ran.code, 0) << ran.err;
    EXPECT_TRUE(has(ran.out, "Buying Peeler: $40,000 now, worth $10,000 after 10 years"))
        << ran.out;
    EXPECT_TRUE(has(ran.out, "Owning is cheaper from"));
    EXPECT_TRUE(has(ran.out, "2 days' feed at a time"));
    EXPECT_GT(fs::file_size(path("out") / "haul-report.pdf"), 5000U);
    const json account = json::parse(testing::slurp(path("out") / "haul.json"));
    const json& buy = account["buying"].at(0);
    const double grown = std::pow(1.04, 10.0);
    const double recovery = 0.04 * grown / (grown - 1.0);
    EXPECT_NEAR(buy["capital_per_year"].get<double>(), (40000.0 - 10000.0) * recovery + 400.0,
                1e-6);
    const double day_s = account["day"]["low_waste"]["time_s"].get<double>();
    EXPECT_NEAR(buy["hours_per_year"].get<double>(), day_s / 3600.0 * 120.0, 1e-6);
    double bales = 0.0;
    for (const json& herd : account["herds"])
        bales += herd["bales"].get<double>() / herd["lasts_days"].get<double>() * 120.0;
    EXPECT_NEAR(buy["bales_per_year"].get<double>(), bales, 1e-6);
    const double owning = buy["capital_per_year"].get<double>() +
                          buy["taxes_insurance_housing_per_year"].get<double>();
    const double running = buy["cost_per_year"].get<double>() - owning;
    EXPECT_NEAR(buy["bales_to_own"].get<double>(), owning / (30.0 - running / bales), 1e-6);
}

TEST_F(Haul, SaysWhatIsWrongWithAnOffer) {
    const Ran short_of = run("--buy 'price=40000'");
    EXPECT_EQ(short_of.code, 2);
    EXPECT_TRUE(has(short_of.err, "end_value=20000;years=8")) << short_of.err;
    const Ran wild = run("--buy 'price=40000;end_value=1;years=900'");
    EXPECT_EQ(wild.code, 2);
    EXPECT_TRUE(has(wild.err, "'years=900' is out of range")) << wild.err;
    const Ran no_rig = run("--buy 'price=40000;end_value=1;years=9;rig=Nobody'");
    EXPECT_EQ(no_rig.code, 2);
    EXPECT_TRUE(has(no_rig.err, "no rig is called 'Nobody'")) << no_rig.err;
    EXPECT_EQ(run("--buy 'price=ten;end_value=1;years=9'").code, 2);
}

}  // namespace
}  // namespace haylane
