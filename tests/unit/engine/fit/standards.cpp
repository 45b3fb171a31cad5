#include <charconv>
#include <cmath>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>

#include "checks.hpp"
#include "engine/fit/standards/limits.hpp"
#include "engine/fit/standards/threads.hpp"

namespace cotter::engine::fit {
namespace {

using namespace testing;
using quantity::Length;
using quantity::micrometres;
using quantity::millimetres;
using quantity::nanometres;

struct Row {
  std::string id, tolerance_class;
  Length nominal, lower, upper;
};

Length decimal(const std::string& text, double unit_nm) {
  double value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return nanometres(std::llround(value * unit_nm));
}

std::vector<Row> reference_rows() {
  std::ifstream file(COTTER_SOURCE_DIR "/tests/oracle/iso286_rows.csv");
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line[0] == '#' || line.starts_with("id,")) continue;
    std::stringstream cells(line);
    std::string id, tolerance_class, nominal, lower, upper;
    std::getline(cells, id, ',');
    std::getline(cells, tolerance_class, ',');
    std::getline(cells, nominal, ',');
    std::getline(cells, lower, ',');
    std::getline(cells, upper, ',');
    rows.push_back({id, tolerance_class, decimal(nominal, 1e6), decimal(lower, 1e3), decimal(upper, 1e3)});
  }
  return rows;
}

TEST(Iso286, AgreesWithTheReferenceRows) {
  const std::vector<Row> rows = reference_rows();
  ASSERT_GE(rows.size(), 30u);
  for (const Row& row : rows) {
    const auto limits = iso286_limits(row.nominal, row.tolerance_class);
    ASSERT_TRUE(limits) << row.id << ": " << limits.error().wanted;
    EXPECT_EQ(limits->deviations.low().base(), row.lower.base()) << row.id;
    EXPECT_EQ(limits->deviations.high().base(), row.upper.base()) << row.id;
  }
}

/// Clearance of a hole and a shaft in micrometres.
std::pair<std::int64_t, std::int64_t> clearance(const ClassLimits& hole, const ClassLimits& shaft) {
  const auto range = hole.deviations - shaft.deviations;
  return {range.low().base() / 1000, range.high().base() / 1000};
}

std::pair<std::int64_t, std::int64_t> fit(std::int64_t nominal_mm, std::string_view hole, std::string_view shaft) {
  return clearance(*iso286_limits(millimetres(nominal_mm), hole), *iso286_limits(millimetres(nominal_mm), shaft));
}

// Sources: 20 H6/e7, 20 H7/s6 and 12 H11/d11 worked in a machine design textbook, chapter 3; 29 H7/h8 worked in the
// notes of a public ISO 286-1:2011 tool; 40 H7/p6 and 28 N7/h6 derived from the table rows.
TEST(Iso286, WorkedFits) {
  EXPECT_EQ(fit(20, "H6", "e7"), std::pair(40L, 74L));
  EXPECT_EQ(fit(20, "H7", "s6"), std::pair(-48L, -14L));
  EXPECT_EQ(fit(12, "H11", "d11"), std::pair(50L, 270L));
  EXPECT_EQ(fit(29, "H7", "h8"), std::pair(0L, 54L));
  EXPECT_EQ(fit(40, "H7", "p6"), std::pair(-42L, -1L));
  EXPECT_EQ(fit(28, "N7", "h6"), std::pair(-28L, 6L));
}

// Source: theoretical interference (-) and clearance (+) in a bearing maker's fit tables, pages 68, 70 and 74.
TEST(Iso492, BearingsInTheirSeats) {
  const auto housing = [](std::int64_t mm, std::string_view hole) {
    return clearance(*iso286_limits(millimetres(mm), hole), *iso492_outer(millimetres(mm)));
  };
  const auto shaft = [](std::int64_t mm, std::string_view name) {
    return clearance(*iso492_bore(millimetres(mm)), *iso286_limits(millimetres(mm), name));
  };
  EXPECT_EQ(housing(8, "N7"), std::pair(-19L, 4L));
  EXPECT_EQ(housing(26, "N7"), std::pair(-28L, 2L));
  EXPECT_EQ(housing(62, "N7"), std::pair(-39L, 4L));
  EXPECT_EQ(housing(42, "P7"), std::pair(-42L, -6L));
  EXPECT_EQ(housing(62, "P7"), std::pair(-51L, -8L));
  EXPECT_EQ(housing(26, "K7"), std::pair(-15L, 15L));
  EXPECT_EQ(housing(42, "M7"), std::pair(-25L, 11L));
  EXPECT_EQ(shaft(15, "g6"), std::pair(-2L, 17L));
  EXPECT_EQ(shaft(25, "g6"), std::pair(-3L, 20L));
  EXPECT_EQ(shaft(40, "h5"), std::pair(-12L, 11L));
}

// Source: ISO 492 Normal class through the same tables.
TEST(Iso492, BoreAndOutsideDiameter) {
  EXPECT_EQ(iso492_bore(millimetres(10))->deviations.low(), micrometres(-8));
  EXPECT_EQ(iso492_bore(millimetres(30))->deviations.low(), micrometres(-10));
  EXPECT_EQ(iso492_bore(millimetres(60))->deviations.low(), micrometres(-15));
  EXPECT_EQ(iso492_outer(millimetres(18))->deviations.low(), micrometres(-8));
  EXPECT_EQ(iso492_outer(millimetres(30))->deviations.low(), micrometres(-9));
  EXPECT_EQ(iso492_outer(millimetres(60))->deviations.low(), micrometres(-13));
  EXPECT_EQ(iso492_outer(millimetres(42))->deviations.high(), Length{});
}

// Source: mean of the shaft zone over the width of the hole zone, for independent uniform zones (closed form).
TEST(Iso286, ProbabilityOfInterferenceIn25H7k6) {
  const auto hole = limits_of_size(millimetres(25), *iso286_limits(millimetres(25), "H7"));
  const auto shaft = limits_of_size(millimetres(25), *iso286_limits(millimetres(25), "k6"));
  const CheckResult result = judge(check(Law::bore_on_shaft,
                                         {base("bore", hole.low().base(), hole.high().base(), Dimension::length),
                                          base("shaft", shaft.low().base(), shaft.high().base(), Dimension::length)},
                                         to_um(0)));
  ASSERT_TRUE(result.probability);
  EXPECT_NEAR(*result.probability, 8.5 / 21, 1e-12);
}

TEST(Iso286, SaysThatATableHasNoRowInsteadOfGuessing) {
  // r and s are split at 65 mm, and no source gave the upper half.
  const auto wide = iso286_limits(millimetres(70), "r6");
  ASSERT_FALSE(wide);
  EXPECT_EQ(wide.error().code, ClassError::Code::no_row);
  EXPECT_EQ(wide.error().table, "ISO 286 fundamental deviations");
  EXPECT_EQ(wide.error().wanted, "r at 70 mm");
  EXPECT_EQ(iso286_limits(millimetres(12), "h10").error().wanted, "IT10 at 12 mm");
  EXPECT_EQ(iso286_limits(millimetres(3), "h7").error().wanted, "IT7 at 3 mm");
  EXPECT_EQ(iso286_limits(millimetres(81), "H7").error().wanted, "IT7 at 81 mm");
  EXPECT_EQ(iso286_limits(millimetres(25), "K5").error().wanted, "IT4 at 25 mm") << "the Delta rule needs IT4";
  EXPECT_TRUE(iso286_limits(millimetres(80), "H7"));
}

TEST(Iso286, RefusesClassesItDoesNotKnow) {
  for (const std::string_view name : {"", "7", "H", "H4", "H12", "Hs7", "j6", "zc7", "H7 ", "h07", "H7/g6"}) {
    const auto limits = iso286_limits(millimetres(25), name);
    ASSERT_FALSE(limits) << name;
    EXPECT_EQ(limits.error().code, ClassError::Code::bad_class) << name;
    EXPECT_EQ(limits.error().wanted, name);
  }
}

// From memory of ISO 286-2: 25 N9 is 0/-52, 25 P8 is -22/-55, 25 M8 is +4/-29, 25 k8 is 0/+33.
TEST(Iso286, CoarseHolesMirrorTheShafts) {
  const auto um_of = [](std::string_view name) {
    const auto found = iso286_limits(millimetres(25), name)->deviations;
    return std::pair(found.low().base() / 1000, found.high().base() / 1000);
  };
  EXPECT_EQ(um_of("N9"), std::pair(-52L, 0L));
  EXPECT_EQ(um_of("P8"), std::pair(-55L, -22L));
  EXPECT_EQ(um_of("M8"), std::pair(-29L, 4L));
  EXPECT_EQ(um_of("k8"), std::pair(0L, 33L));
}

struct ThreadRow {
  std::string_view name;
  std::int64_t major_min, major_max, pitch_min, pitch_max;
};

// Source: limits 6g of coarse threads after ISO 965 in a fastener distributor's catalogue, page 711.
TEST(Threads, ExternalLimitsAgreeWithTheProfileAndTheTable) {
  const std::vector<ThreadRow> rows{{"M2", 1'886, 1'981, 1'654, 1'721}, {"M2.5", 2'380, 2'480, 2'117, 2'188},
                                    {"M3", 2'874, 2'980, 2'580, 2'655}, {"M4", 3'838, 3'978, 3'433, 3'523},
                                    {"M5", 4'826, 4'976, 4'361, 4'456}, {"M6", 5'794, 5'974, 5'212, 5'324}};
  for (const ThreadRow& row : rows) {
    const auto name = parse_thread(row.name);
    ASSERT_TRUE(name) << row.name;
    const auto limits = thread_limits(name->major, name->pitch.low(), "6g");
    ASSERT_TRUE(limits) << row.name;
    EXPECT_EQ(limits->major.least, micrometres(row.major_min)) << row.name;
    EXPECT_EQ(limits->major.greatest, micrometres(row.major_max)) << row.name;
    EXPECT_EQ(limits->pitch_diameter.least, micrometres(row.pitch_min)) << row.name;
    EXPECT_EQ(limits->pitch_diameter.greatest, micrometres(row.pitch_max)) << row.name;
    EXPECT_EQ(limits->minor.greatest, std::nullopt) << "the standard leaves it to the profile";
    // Deviation g is the same on the major and the pitch diameter, so the table and the ISO 68-1 profile must agree.
    const Length basic = basic_profile(name->major, name->pitch.low()).pitch_diameter;
    const Length gap = (name->major - *limits->major.greatest) - (basic - *limits->pitch_diameter.greatest);
    EXPECT_LE(std::abs(gap.base()), 1'000) << row.name;
  }
}

// Sources: 6H pitch diameter tolerances in a tap maker's catalogue of 2021, page 656; greatest minor diameters from
// memory of ISO 965-2 (M3 2.599, M4 3.422, M6 5.153).
TEST(Threads, InternalLimitsOf6H) {
  const auto m4 = thread_limits(millimetres(4), micrometres(700), "6H");
  ASSERT_TRUE(m4);
  EXPECT_EQ(m4->major.least, millimetres(4));
  EXPECT_EQ(m4->major.greatest, std::nullopt) << "left open by the standard";
  EXPECT_EQ(*m4->pitch_diameter.greatest - *m4->pitch_diameter.least, micrometres(118));
  EXPECT_EQ(m4->pitch_diameter.least, micrometres(3'545));
  EXPECT_EQ(m4->minor.least, micrometres(3'242));
  EXPECT_EQ(m4->minor.greatest, micrometres(3'422));
  EXPECT_NE(m4->source.find("from memory"), std::string::npos);
  EXPECT_EQ(thread_limits(millimetres(3), micrometres(500), "6H")->minor.greatest, micrometres(2'599));
  EXPECT_EQ(thread_limits(millimetres(6), millimetres(1), "6H")->minor.greatest, micrometres(5'153));
  EXPECT_EQ(thread_limits(millimetres(6), millimetres(1), "6H")->pitch_diameter.greatest, std::nullopt);
  EXPECT_EQ(thread_limits(millimetres(5), micrometres(800), "6H")->minor.greatest, std::nullopt);
}

// Source: ISO 68-1 profile rows of a public data file of fastener tables, recomputed.
TEST(Threads, BasicProfile) {
  const auto near = [](Length value, double mm) { EXPECT_NEAR(quantity::in_millimetres(value), mm, 1e-6); };
  near(basic_profile(millimetres(5), micrometres(800)).pitch_diameter, 4.480385);
  near(basic_profile(millimetres(5), micrometres(800)).minor, 4.133975);
  near(basic_profile(millimetres(10), millimetres(1)).pitch_diameter, 9.350481);
  near(basic_profile(millimetres(10), millimetres(1)).minor, 8.917468);
}

// Source: ISO 6696 takes the ISO 68 profile with an inch pitch; 1.37 in x 24 per inch put into it.
TEST(Threads, ShellThreadOf137InchBy24) {
  const auto name = parse_thread("1.37 in x 24 tpi");
  ASSERT_TRUE(name);
  EXPECT_EQ(name->major, micrometres(34'798));
  EXPECT_EQ(name->pitch, quantity::Interval(nanometres(1'058'333), nanometres(1'058'334)));
  const BasicProfile basic = basic_profile(name->major, name->pitch.low());
  EXPECT_NEAR(quantity::in_millimetres(basic.pitch_diameter), 34.11059, 1e-5);
  EXPECT_NEAR(quantity::in_millimetres(basic.minor), 33.65232, 1e-5);
}

TEST(Threads, NamesAreReadOrRefused) {
  EXPECT_EQ(parse_thread("M10x1")->pitch.low(), millimetres(1));
  EXPECT_EQ(parse_thread("M10")->pitch.low(), micrometres(1'500));
  EXPECT_EQ(parse_thread("M7").error().code, ClassError::Code::no_row);
  EXPECT_EQ(parse_thread("M7").error().accepted, "the pitch written out, for example M10x1");
  for (const std::string_view name : {"", "M", "Mx1", "M5x", "M5x0", "1.37 in", "x", "5x0.8", "M-5"})
    EXPECT_FALSE(parse_thread(name)) << name;
}

TEST(Threads, SaysThatATableHasNoRow) {
  const auto limits = thread_limits(millimetres(12), micrometres(1'500), "6g");
  ASSERT_FALSE(limits);
  EXPECT_EQ(limits.error().code, ClassError::Code::no_row);
  EXPECT_EQ(limits.error().wanted, "6g for 12 x 1.5 mm");
  EXPECT_EQ(thread_limits(millimetres(5), micrometres(800), "4h").error().code, ClassError::Code::bad_class);
  EXPECT_EQ(thread_limits(millimetres(12), micrometres(1'500), "basic")->major.least, millimetres(12));
}

}  // namespace
}  // namespace cotter::engine::fit
