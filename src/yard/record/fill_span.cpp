#include "yard/record/fill_span.hpp"

#include "core/base/error.hpp"
#include "yard/record/read.hpp"

namespace stillheap::record {

FillSpan span_of(const Store& store, const std::string& fill_id) {
  const std::optional<Fill> fill = current<Fill>(store, fill_id);
  if (!fill) throw InputError("fill", "= \"" + fill_id + "\" is not in the records", "note the fill first");
  FillSpan span{*fill, std::nullopt};
  for (const Event& event : of_fill<Event>(store, fill_id)) {
    if (ends_fill(event.kind)) span.end = event.at;
  }
  return span;
}

std::string why_not_then(Instant at, const FillSpan& span, const std::string& zone) {
  if (at < span.fill.filled_at) {
    return "is before batch " + span.fill.batch + " was filled, " + to_local_text(span.fill.filled_at, zone);
  }
  if (span.end && at > *span.end) {
    return "is after batch " + span.fill.batch + " was taken out, " + to_local_text(*span.end, zone);
  }
  if (at > now() + std::chrono::days{1}) return "is still to come; is the logger's clock right?";
  return {};
}

}  // namespace stillheap::record
