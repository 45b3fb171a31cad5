#pragma once
// The words that stand in documents for the model's enumerations. One place for both directions of a document, for
// facts and for drawings.

#include <string_view>

#include "model/operation.hpp"
#include "model/part.hpp"
#include "model/source.hpp"

namespace cotter::model {

std::string_view word_for(Material material);
std::string_view word_for(LineForm::Kind kind);
std::string_view word_for(Reversible reversible);
std::string_view word_for(Guards guards);
std::string_view word_for(MayPass may_pass);
std::string_view word_for(Source::Kind kind);

}  // namespace cotter::model
