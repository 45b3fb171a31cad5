#include <gtest/gtest.h>

#include "document/parse.hpp"
#include "problem/fit_problem.hpp"

namespace cotter::problem {
namespace {

using document::Node;

document::Read<Node> solve_text(const std::string& text) {
  const auto node = document::parse(text, "problem.json", document::Format::json);
  if (!node) return tl::unexpected(node.error());
  return solve_fit(*node, "problem.json");
}

/// A pin in a hub, with one field put in place of another text.
document::Read<Node> solve_pin(const std::string& old = "", const std::string& now = "") {
  std::string text = R"({"cotter": "fit_problem 1", "press": [{"id": "pin", "bore": "25 mm", "shaft": "25.025 mm",
    "outer": "50 mm", "inner": "0 mm", "length": "20 mm", "hub_material": {"modulus": "200000 MPa", "poisson": 0.3},
    "shaft_material": {"modulus": "200000 MPa", "poisson": 0.3}, "friction": 0.1, "source": "by hand"}]})";
  if (!old.empty()) text.replace(text.find(old), old.size(), now);
  return solve_text(text);
}

std::string complaint(const document::Read<Node>& solved) {
  return solved ? "solved" : document::one_line(solved.error().list().front());
}

TEST(FitPress, WholeResult) {
  // One material and a solid shaft: 100 000 MPa x 0.001 x 3/4 = 75 MPa; 0.1 x 75 MPa x pi x 25 x 20 mm2 = 11 780.97 N.
  const auto solved = solve_pin();
  ASSERT_TRUE(solved) << complaint(solved);
  const std::string bracket =
      "((H + hub's Poisson) / hub's modulus + (S - shaft's Poisson) / shaft's modulus), "
      "H = (outer² + bore²) / (outer² - bore²), S = (bore² + inner²) / (bore² - inner²)";
  EXPECT_EQ(document::write_json(*solved), R"({
  "engine": "fit",
  "press": [
    {
      "id": "pin",
      "certainty": "holds",
      "interference": {
        "low": "0.025 mm",
        "low_nm": 25000,
        "high": "0.025 mm",
        "high_nm": 25000,
        "formula": "shaft - bore"
      },
      "pressure": {
        "low": "749.99999 bar",
        "low_base": 74999999,
        "high": "750.00001 bar",
        "high_base": 75000001,
        "formula": "interference / bore / )" + bracket +
                                               R"("
      },
      "hub_hoop": {
        "low": "1249.99999 bar",
        "low_base": 124999999,
        "high": "1250.00001 bar",
        "high_base": 125000001,
        "formula": "pressure x H"
      },
      "shaft_hoop": {
        "low": "749.99999 bar",
        "low_base": 74999999,
        "high": "750.00001 bar",
        "high_base": 75000001,
        "formula": "pressure x (S + 1); a solid shaft: pressure"
      },
      "force": {
        "low": "11780.972 N",
        "low_base": 11780972,
        "high": "11780.973 N",
        "high_base": 11780973,
        "formula": "friction x pressure x pi x bore x length"
      },
      "torque": {
        "low": "147.262155 N·m",
        "low_base": 147262155,
        "high": "147.262156 N·m",
        "high_base": 147262156,
        "formula": "force x bore / 2"
      },
      "inner_shrinks": {
        "low": "0 mm",
        "low_nm": 0,
        "high": "0 mm",
        "high_nm": 0,
        "formula": "inner x hoop stress of the shaft / shaft's modulus"
      },
      "outer_grows": {
        "low": "0.012499 mm",
        "low_nm": 12499,
        "high": "0.012501 mm",
        "high_nm": 12501,
        "formula": "outer x pressure x (H - 1) / hub's modulus"
      },
      "bounds": [],
      "rests_on": [
        "bore",
        "shaft",
        "outer",
        "inner",
        "length",
        "hub_material",
        "shaft_material"
      ],
      "source": "by hand"
    }
  ]
})");
}

TEST(FitPress, SaysWhatIsWrongAndWhere) {
  EXPECT_EQ(complaint(solve_pin(R"("outer": "50 mm")", R"("outer": "25 mm")")),
            "problem.json:2:14: press[0].outer: No wall is left beside the joint; accepted: larger than the bore");
  EXPECT_EQ(complaint(solve_pin(R"("inner": "0 mm")", R"("inner": "26 mm")")),
            "problem.json:2:32: press[0].inner: No wall is left beside the joint; accepted: smaller than the bore");
  EXPECT_EQ(complaint(solve_pin("25.025 mm", "28 mm")),
            "problem.json:1:79: press[0].shaft: The shaft is too large for elastic parts; accepted: an interference of "
            "at most a tenth of either wall");
  EXPECT_EQ(complaint(solve_pin("25.025 mm", "25.025 N")),
            "problem.json:1:79: press[0].shaft: The unit is one of another kind of quantity; found \"25.025 N\"; "
            "accepted: mm, cm, m, µm, nm, in or tpi, a unit of length");
  EXPECT_EQ(
      complaint(solve_pin(R"("friction": 0.1)", R"("friction": {"from": 0.2, "to": 0.1})")),
      "problem.json:3:78: press[0].friction: The range has its ends swapped; accepted: `from` no greater than `to`");
  EXPECT_EQ(complaint(solve_pin(R"({"modulus": "200000 MPa", "poisson": 0.3})", R"("wood")")),
            "problem.json:2:75: press[0].hub_material: The word is not one of those known here; found \"wood\"; "
            "accepted: one of: steel, aluminium, titanium, plastic, composite");
  EXPECT_EQ(complaint(solve_pin(R"("friction": 0.1)", R"("friction": 0.1, "must_hub_hoop": {"to": "10 mm"})")),
            "problem.json:3:107: press[0].must_hub_hoop.to: The unit is one of another kind of quantity; found \"10 "
            "mm\"; accepted: bar, kPa, MPa, Pa or psi, a unit of pressure");
}

TEST(FitPress, NamedMaterialsAndUnstatedOriginsAreSaid) {
  const auto solved = solve_pin(R"("hub_material": {"modulus": "200000 MPa", "poisson": 0.3})",
                                R"("must_hub_hoop": {"to": "90 MPa"}, "hub_material": "composite")");
  ASSERT_TRUE(solved) << complaint(solved);
  const Node& press = solved->find("press")->items()[0];
  std::string names;
  for (const Node& name : press.find("rests_on")->items()) names += name.scalar() + " ";
  EXPECT_EQ(names, "bore shaft outer inner length hub_material shaft_material ");
  EXPECT_NE(press.find("material_sources")->find("hub")->scalar().find("no source"), std::string::npos);
  EXPECT_EQ(press.find("bounds")->items()[0].find("of")->scalar(), "hub_hoop");
}

}  // namespace
}  // namespace cotter::problem
