// What a press fit says beside its verdict, asserted in full.
#include <gtest/gtest.h>

#include "findings.hpp"
#include "words/finding_words.hpp"
#include "words/phrase.hpp"

namespace cotter::words {
namespace {

using model::Finding;
using model::Verdict;
using quantity::Dimension;
using Sentences = std::vector<std::string>;

quantity::Range between(std::int64_t low, std::int64_t high) {
  return {quantity::Mixed::from_base(low), quantity::Mixed::from_base(high)};
}

Finding pressed(Verdict verdict) {
  Finding finding;
  finding.rule = "cup_in_shell";
  finding.verdict = verdict;
  finding.press = model::PressWorking{};
  finding.press->steps = {{"hub_hoop", "pressure x H", Dimension::pressure, between(21'949'999, 130'400'000)},
                          {"force", "friction x area", Dimension::force, between(190'400, 1'359'600)},
                          {"inner_shrinks", "inner x strain", Dimension::length, between(19'000, 33'000)}};
  finding.press->hub_source = "aluminium: a table";
  finding.press->shaft_source = "steel: another";
  return finding;
}

TEST(PressWords, TheForceIsSaidAndTheNumbersStandInTheWorking) {
  const Finding finding = pressed(Verdict::accept);
  EXPECT_EQ(sentences(finding), Sentences{"Pressing it home takes 190 to 1360 N, computed for round elastic parts; "
                                          "choose press and pilots for the upper end."});
  EXPECT_EQ(
      working(finding),
      (Sentences{
          "rule      cup_in_shell", "pressed   hoop stress (tension) at the bore = pressure x H = 21.9 to 130 MPa",
          "pressed   force to press it home = friction x area = 190 to 1360 N",
          "pressed   what the inside of the part pressed in loses in diameter, and with it a bearing in "
          "clearance = inner x strain = 0.019 to 0.033 mm",
          "pressed   no limit on the stress is stated, so these numbers decide nothing",
          "pressed   elastic constants of the part with the bore: aluminium: a table",
          "pressed   elastic constants of the part pressed in: steel: another", "source    common practice, no source",
          "limit     A mechanic may accept it with a written "
          "reason."}));
}

TEST(PressWords, TheLimitDecides) {
  Finding finding = pressed(Verdict::stop);
  finding.press->most_stress = between(15'000'000, 15'000'000);
  finding.press->stress = quantity::Certainty::fails;
  EXPECT_EQ(sentences(finding), Sentences{"The hoop stress at the bore would be 21.9 to 130 MPa; its maker allows 15 "
                                          "MPa. Do not press these two together."});
  finding.verdict = Verdict::measure;
  finding.press->stress = quantity::Certainty::open;
  EXPECT_EQ(sentences(finding).front(),
            "The hoop stress at the bore would be 21.9 to 130 MPa; its maker allows 15 MPa. Not to be pressed before "
            "measurements put it below.");
  finding.press->steps.clear();
  EXPECT_EQ(sentences(finding).front(),
            "Its maker allows a hoop stress of 15 MPa at the bore, and the stress cannot be computed yet: cotter why "
            "names what is missing.");
}

TEST(PressWords, CompositeCarriesItsCautionAndWhatIsAssumed) {
  Finding finding = pressed(Verdict::measure);
  finding.guards = model::Guards::composite;
  finding.press->composite = true;
  finding.press->most_stress = between(900'000'000, 900'000'000);
  finding.press->rests_on = {"elastic constants of composite"};
  EXPECT_EQ(sentences(finding),
            (Sentences{"The hoop stress at the bore would be 21.9 to 130 MPa and its maker allows 900 MPa, but the "
                       "stress rests on what nobody vouches for: elastic constants of composite. Ask the maker in "
                       "writing.",
                       "Pressing it home takes 190 to 1360 N, computed for round elastic parts; choose press and "
                       "pilots for the upper end.",
                       std::string(phrase("press.composite"))}));
}

TEST(PressWords, WhatIsMissingIsNamed) {
  Finding finding = pressed(Verdict::ok);
  finding.press->steps.clear();
  finding.press->missing = {"frame, outside diameter of the shell", "frame, material around the bore"};
  EXPECT_EQ(working(finding)[1],
            "pressed   not computed, because no part states: frame, outside diameter of the shell; frame, material "
            "around the bore");
  finding.press->missing.clear();
  finding.press->note = "press.too_much";
  EXPECT_EQ(working(finding)[1], "pressed   " + std::string(phrase("press.too_much")));
}

}  // namespace
}  // namespace cotter::words
