#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "bridge_invented.hpp"
#include "engine/fit/bridge/solve.hpp"

namespace cotter::engine::fit::bridge {
namespace {

using peer::PlainCatalog;

constexpr std::uint32_t k_bore = 0;
constexpr std::uint32_t k_shaft = 1;

Feature sized(std::uint32_t kind, std::int64_t micrometres, std::int64_t spread = 10) {
  return {kind, {{(micrometres - spread) * 1000, (micrometres + spread) * 1000}}, {}};
}

/// A sleeve: its outside goes into a bore, its bore takes a shaft.
Piece sleeve(std::int64_t outside, std::int64_t bore, std::int64_t cost) {
  return {cost, {sized(k_shaft, outside), sized(k_bore, bore)}, {{0, 1}}};
}

/// Bores and shafts with a clearance of 0.01 to 0.25 mm.
PlainCatalog tubes(std::vector<Piece> pieces) {
  using enum RuleOperand::Side;
  Rule clearance{Law::bore_on_shaft, {{"bore", own, 0, 0, {}}, {"shaft", other, 0, 0, {}}}, {}, {}};
  clearance.must = {Mixed::from_base(10'000), Mixed::from_base(250'000)};
  return {{{{Dimension::length}, 0}, {{Dimension::length}, 0}}, {{k_bore, k_shaft, {clearance}}}, std::move(pieces)};
}

Catalog packed(const PlainCatalog& plain) {
  Catalog catalog(plain.kinds, plain.meetings);
  for (const Piece& piece : plain.pieces) catalog.add(piece);
  return catalog;
}

std::vector<std::uint32_t> pieces_of(const Chain& chain) {
  std::vector<std::uint32_t> out;
  for (const Link& link : chain.links) out.push_back(link.piece);
  return out;
}

// A post of 27.2 in a tube of 31.6 mm, by hand: sleeve 31.5 outside, 27.3 inside. Clearance 0.1 less 0.02 of spread.
TEST(Bridge, OneSleeveBetweenTubeAndPost) {
  const Index index(packed(tubes({sleeve(31'500, 27'300, 1200)})));
  const Result result = solve(index, {sized(k_bore, 31'600), sized(k_shaft, 27'200), {}, 4});
  ASSERT_EQ(result.status, Status::found);
  EXPECT_EQ(result.chain->cost, 1200);
  EXPECT_EQ(result.chain->links, (std::vector<Link>{{0, 0, 1}}));
  ASSERT_EQ(result.chain->joints.size(), 2u);
  EXPECT_EQ(result.chain->joints[0].certainty, Certainty::holds);
  EXPECT_EQ(result.chain->joints[0].rules[0].margin, 70'000);  // 0.08 mm of clearance, 0.01 asked
  EXPECT_TRUE(result.chain->certain);
  EXPECT_FALSE(result.proof.least_left.has_value());
}

TEST(Bridge, TwoCheapSleevesGoBeforeOneDearOne) {
  const Index index(
      packed(tubes({sleeve(31'500, 27'300, 3000), sleeve(31'500, 30'000, 500), sleeve(29'900, 27'300, 600)})));
  const Query query{sized(k_bore, 31'600), sized(k_shaft, 27'200), {}, 4};
  const Result result = solve(index, query);
  ASSERT_TRUE(result.chain);
  EXPECT_EQ(result.chain->cost, 1100);
  EXPECT_EQ(pieces_of(*result.chain), (std::vector<std::uint32_t>{1, 2}));

  Query with_one = query;
  with_one.most_pieces = 1;
  EXPECT_EQ(solve(index, with_one).chain->cost, 3000);

  Query without = query;
  without.forbidden = {2};
  EXPECT_EQ(solve(index, without).chain->cost, 3000);
}

TEST(Bridge, WalksFromEitherEnd) {
  const Index index(packed(tubes({sleeve(31'500, 27'300, 1200)})));
  const Result result = solve(index, {sized(k_shaft, 27'200), sized(k_bore, 31'600), {}, 1});
  ASSERT_TRUE(result.chain);
  EXPECT_EQ(result.chain->links, (std::vector<Link>{{0, 1, 0}}));
}

TEST(Bridge, EqualCostsGoByFewerPiecesThenByPlaceInTheCatalog) {
  const Index index(packed(tubes({sleeve(31'500, 30'000, 500), sleeve(29'900, 27'300, 500),
                                  sleeve(31'510, 27'300, 1000), sleeve(31'500, 27'300, 1000)})));
  std::vector<std::vector<std::uint32_t>> seen;
  const Query query{sized(k_bore, 31'600), sized(k_shaft, 27'200), {}, 2};
  const Result result = solve(index, query, [&](const Chain& chain) {
    seen.push_back(pieces_of(chain));
    return false;
  });
  EXPECT_EQ(seen, (std::vector<std::vector<std::uint32_t>>{{2}, {3}, {0, 1}}));
  EXPECT_EQ(result.status, Status::none);
  EXPECT_EQ(result.reason, Reason::all_refused);
  EXPECT_EQ(result.proposals, 3);
}

TEST(Bridge, WhatIsRefusedIsFollowedByTheNextCheapest) {
  const Index index(packed(tubes({sleeve(31'500, 27'300, 900), sleeve(31'500, 27'300, 700)})));
  const Result result = solve(index, {sized(k_bore, 31'600), sized(k_shaft, 27'200), {}, 4},
                              [](const Chain& chain) { return chain.cost > 800; });
  ASSERT_TRUE(result.chain);
  EXPECT_EQ(result.chain->cost, 900);
  EXPECT_EQ(result.proposals, 2);
}

TEST(Bridge, OpenJointsComeAfterCertainOnesWhateverTheyCost) {
  // The cheap sleeve may be 0.24 to 0.26 mm loose in the tube.
  const Index index(packed(tubes({sleeve(31'350, 27'300, 100), sleeve(31'500, 27'300, 5000)})));
  const Query query{sized(k_bore, 31'600, 0), sized(k_shaft, 27'200), {}, 4};
  EXPECT_EQ(solve(index, query).chain->cost, 5000);
  Query open = query;
  open.forbidden = {1};
  const Result result = solve(index, open);
  ASSERT_TRUE(result.chain);
  EXPECT_FALSE(result.chain->certain);
  EXPECT_EQ(result.chain->joints[0].certainty, Certainty::open);
}

TEST(Bridge, WhatNobodyStatesLeavesAJointOpen) {
  Piece blank = sleeve(31'500, 27'300, 100);
  blank.features[1].amounts[0] = {};
  const Index index(packed(tubes({blank})));
  const Result result = solve(index, {sized(k_bore, 31'600), sized(k_shaft, 27'200), {}, 4});
  ASSERT_TRUE(result.chain);
  EXPECT_FALSE(result.chain->certain);
  EXPECT_FALSE(result.chain->joints[1].attested);
}

TEST(Bridge, SaysWhyThereIsNone) {
  const Query query{sized(k_bore, 31'600), sized(k_shaft, 27'200), {}, 2};
  const auto reason = [&](std::vector<Piece> pieces) {
    const Index index(packed(tubes(std::move(pieces))));
    const Result result = solve(index, query);
    EXPECT_EQ(result.status, Status::none);
    return result.reason;
  };
  EXPECT_EQ(reason({}), Reason::start_meets_nothing);
  EXPECT_EQ(reason({sleeve(25'000, 27'300, 1)}), Reason::start_meets_nothing);
  EXPECT_EQ(reason({sleeve(31'500, 26'000, 1)}), Reason::goal_meets_nothing);
  EXPECT_EQ(reason({sleeve(31'500, 30'000, 1), sleeve(29'900, 28'500, 1), sleeve(28'400, 27'300, 1)}),
            Reason::too_many_pieces);
}

TEST(Bridge, TheNodeLimitEndsWithoutAChain) {
  const Index index(packed(tubes({sleeve(31'500, 30'000, 500), sleeve(29'900, 27'300, 500)})));
  Options options;
  options.node_limit = 1;
  const Result result = solve(index, {sized(k_bore, 31'600), sized(k_shaft, 27'200), {}, 4}, options);
  EXPECT_EQ(result.status, Status::unfinished);
  EXPECT_FALSE(result.chain);
}

void expect_as_the_peer(const PlainCatalog& plain, const std::vector<Query>& queries) {
  const Index index(packed(plain));
  const peer::Peer peer(plain);
  for (const Query& query : queries) {
    const Result result = solve(index, query);
    ASSERT_NE(result.status, Status::unfinished);
    const auto certain = peer.least_certain(query);
    const auto least = certain ? certain : peer.least_open(query);
    ASSERT_EQ(result.chain.has_value(), least.has_value());
    if (!least) continue;
    EXPECT_EQ(result.chain->cost, *least);
    EXPECT_EQ(result.chain->certain, certain.has_value());
    EXPECT_TRUE(peer::valid(plain, query, *result.chain));
  }
}

TEST(Bridge, AgreesWithDijkstraWithoutIndexOn400InventedQueries) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    invented::Maker maker(seed, {});
    const PlainCatalog plain = invented::catalog(maker, 60);
    std::vector<Query> queries;
    for (int i = 0; i < 20; ++i)
      queries.push_back({maker.feature(), maker.feature(), {maker.number(60)}, 1 + static_cast<int>(maker.number(5))});
    expect_as_the_peer(plain, queries);
  }
}

RC_GTEST_PROP(BridgeProperty, EndsMayBeExchangedAndAnotherPieceNeverMakesItDearer, (std::uint32_t seed)) {
  invented::Maker maker(seed, {});
  PlainCatalog plain = invented::catalog(maker, 50);
  const Query query{maker.feature(), maker.feature(), {}, 3};
  const Index index(packed(plain));
  const Result result = solve(index, query);
  const Result turned = solve(index, {query.goal, query.start, {}, 3});
  RC_ASSERT(result.chain.has_value() == turned.chain.has_value());
  plain.pieces.push_back(maker.piece());
  const Index larger(packed(plain));
  const Result more = solve(larger, query);
  if (!result.chain) return;
  RC_ASSERT(result.chain->cost == turned.chain->cost);
  RC_ASSERT(more.chain.has_value());
  RC_ASSERT(!result.chain->certain || more.chain->cost <= result.chain->cost);
}

RC_GTEST_PROP(BridgeProperty, ProposalsNeverGetCheaper, (std::uint32_t seed)) {
  invented::Maker maker(seed, {});
  const PlainCatalog plain = invented::catalog(maker, 80);
  const Query query{maker.feature(), maker.feature(), {}, 4};
  const Index index(packed(plain));
  std::optional<Chain> before;
  solve(index, query, [&](const Chain& chain) {
    RC_ASSERT(peer::valid(plain, query, chain));
    if (before && before->certain == chain.certain) RC_ASSERT(before->cost <= chain.cost);
    if (before) RC_ASSERT(before->certain || !chain.certain);
    before = chain;
    return false;
  });
}

}  // namespace
}  // namespace cotter::engine::fit::bridge
