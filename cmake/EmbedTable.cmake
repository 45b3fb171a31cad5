file(READ ${INPUT} text)
get_filename_component(name ${INPUT} NAME)
file(WRITE ${OUTPUT} "// Made from ${name}; edit that file.\n#pragma once\n#include <string_view>\ninline constexpr std::string_view ${SYMBOL} = R\"~~~(${text})~~~\";\n")
