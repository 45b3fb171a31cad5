#pragma once
// One function a law, each in its own file. Read through `law_spec`.

#include "engine/fit/laws/law.hpp"

namespace cotter::engine::fit::laws {

LawSpec bore_on_shaft();
LawSpec difference();
LawSpec at_most();
LawSpec at_least();
LawSpec range_contains();
LawSpec thread();
LawSpec equal_pattern();
LawSpec equal_family();
LawSpec engagement();
LawSpec radial_room();
LawSpec equal_angle();
LawSpec overlap();

}  // namespace cotter::engine::fit::laws
