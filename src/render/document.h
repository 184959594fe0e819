#pragma once

#include <string>
#include <utility>
#include <vector>

#include "season/document.h"

namespace render {

// A document as one printable page, without scripts; all text is escaped.
std::string html(const season::Document& document);

// Its tables as CSV with numbers as numbers, and datapackage.json (Frictionless Data) that says
// what each column holds. File name and content.
std::vector<std::pair<std::string, std::string>> csv_files(const season::Document& document);

}  // namespace render
