#include "present/draw/pdf_language.hpp"

#include <charconv>
#include <cstdio>
#include <optional>

namespace stillheap::sheet {
namespace {

/// The whole number behind a word of the trailer.
std::optional<std::size_t> number_after(std::string_view text, std::string_view word) {
  const std::size_t at = text.find(word);
  if (at == std::string_view::npos) return std::nullopt;
  const std::size_t first = text.find_first_not_of(" \n", at + word.size());
  if (first == std::string_view::npos) return std::nullopt;
  std::size_t number = 0;
  const auto read = std::from_chars(text.data() + first, text.data() + text.size(), number);
  return read.ec == std::errc{} ? std::optional(number) : std::nullopt;
}

/// An object's own text between its brackets "<<" and ">>", the outermost.
std::string_view dictionary_of(std::string_view pdf, std::size_t number) {
  const std::string head = "\n" + std::to_string(number) + " 0 obj";
  const std::size_t at = pdf.rfind(head);
  if (at == std::string_view::npos) return {};
  const std::size_t end = pdf.find("endobj", at);
  const std::string_view object = pdf.substr(at, end == std::string_view::npos ? end : end - at);
  const std::size_t open = object.find("<<"), close = object.rfind(">>");
  if (open == std::string_view::npos || close == std::string_view::npos) return {};
  return object.substr(open + 2, close - open - 2);
}

}  // namespace

std::string with_language(std::string pdf, std::string_view language) {
  const std::size_t trailer_at = pdf.rfind("\ntrailer");
  if (trailer_at == std::string::npos) return pdf;
  const std::string_view trailer = std::string_view(pdf).substr(trailer_at);
  const auto size = number_after(trailer, "/Size"), root = number_after(trailer, "/Root"),
             info = number_after(trailer, "/Info"), table = number_after(trailer, "startxref");
  if (!size || !root || !info || !table) return pdf;
  const std::string_view catalogue = dictionary_of(pdf, *root);
  if (catalogue.find("/Catalog") == std::string_view::npos) return pdf;
  const bool titled = dictionary_of(pdf, *info).find("/Title") != std::string_view::npos;
  std::string update = std::to_string(*root) + " 0 obj\n<<" + std::string(catalogue) + "   /Lang (" +
                       std::string(language) + ")\n" +
                       (titled ? "   /ViewerPreferences << /DisplayDocTitle true >>\n" : "") + ">>\nendobj\n";
  char entry[32];
  std::snprintf(entry, sizeof entry, "%010zu 00000 n \n", pdf.size());
  const std::size_t table_at = pdf.size() + update.size();
  update += "xref\n" + std::to_string(*root) + " 1\n" + entry + "trailer\n<< /Size " + std::to_string(*size) +
            " /Root " + std::to_string(*root) + " 0 R /Info " + std::to_string(*info) + " 0 R /Prev " +
            std::to_string(*table) + " >>\nstartxref\n" + std::to_string(table_at) + "\n%%EOF\n";
  return pdf + update;
}

}  // namespace stillheap::sheet
