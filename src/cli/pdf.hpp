// A sheet as PDF, by WeasyPrint, a program of its own that Debian packages; nothing else needs it.
#pragma once

#include <string>

namespace sunstrain::cli {

// Throws BadInput where the program is not installed. Costs nothing much: for before long work.
void require_pdf_renderer();

// The bytes of the PDF. No shell sees any of it, and the document names nothing to fetch. Throws BadInput where the
// program is not installed, std::runtime_error where it fails.
std::string pdf_of(const std::string& html);

}  // namespace sunstrain::cli
