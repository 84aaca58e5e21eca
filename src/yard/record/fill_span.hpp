#pragma once
#include <optional>
#include <string>

#include "yard/record/entries.hpp"
#include "yard/record/store.hpp"

/// When a fill can have been read. Only the readers of files in this folder include this.
namespace stillheap::record {

/// A fill, and when it was taken out.
struct FillSpan {
  Fill fill;
  std::optional<Instant> end;
};

/// Throws InputError when the records hold no such fill.
[[nodiscard]] FillSpan span_of(const Store& store, const std::string& fill_id);

/// Why nothing can have been read of the fill at that moment; empty where it can. `zone`: in which it is told.
[[nodiscard]] std::string why_not_then(Instant at, const FillSpan& span, const std::string& zone);

}  // namespace stillheap::record
