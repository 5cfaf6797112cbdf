#include "tests/acceptance/transcript.h"

#include <catch2/catch.hpp>

using flitch::acceptance::play;

TEST_CASE("transcript: a board's whole life") { play("whole_life"); }
TEST_CASE("transcript: what is refused, in a maker's words") { play("refusals"); }
TEST_CASE("transcript: a delivery with its invoice") { play("deliveries"); }
TEST_CASE("transcript: what went otherwise than planned") { play("otherwise"); }
TEST_CASE("transcript: work at the rack, a bay counted, boards sent back") { play("rack_work"); }
TEST_CASE("transcript: a claim on a delivery") { play("claim"); }
TEST_CASE("transcript: a metric book") { play("metric"); }
TEST_CASE("transcript: faces nobody looked at, and parts that wait") { play("unseen"); }
TEST_CASE("transcript: fetching and sawing a job from paper") { play("bench"); }
TEST_CASE("transcript: what the wood cost and where it went") { play("ledger"); }
TEST_CASE("transcript: the maker's eye, and surprises at the saw") { play("eye"); }
TEST_CASE("transcript: shorts for a bin, one line at the board, offcuts at zero") { play("bins"); }
TEST_CASE("transcript: panels glued from staves") { play("glued"); }
TEST_CASE("transcript: what a job costs, and what to buy for it") { play("price"); }
TEST_CASE("transcript: parts that go together and wood set aside") { play("groups"); }
TEST_CASE("transcript: a job that asks for something else") { play("change"); }
