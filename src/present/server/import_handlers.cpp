#include <filesystem>
#include <fstream>

#include "present/server/handlers.hpp"
#include "present/server/json.hpp"
#include "present/server/scratch.hpp"
#include "yard/record/csv_import.hpp"
#include "yard/record/read.hpp"

namespace stillheap::server {
namespace {

constexpr std::size_t most_told = 100;  // refused cells; chosen: more than anybody reads
constexpr std::size_t most_shown = 5;   // readings of the preview

/// The sent text as a file, since that is what the reader of logger files takes; gone at the end.
class SentFile {
 public:
  explicit SentFile(const std::string& text) : scratch_("sent.csv") {
    std::ofstream out(path(), std::ios::binary);
    out << text;
    if (!out.flush()) throw RunError("file", "cannot be kept while it is read", "make room in the temporary folder");
  }
  [[nodiscard]] const std::filesystem::path& path() const noexcept { return scratch_.file(); }

 private:
  Scratch scratch_;
};

std::string text_at(const Json& json, const char* key, bool must) {
  const auto found = json.find(key);
  if (found != json.end() && found->is_string()) return found->get<std::string>();
  if (must) throw InputError(key, "is missing", "give it as a text");
  return {};
}

bool flag_at(const Json& json, const char* key) {
  const auto found = json.find(key);
  return found != json.end() && found->is_boolean() && found->get<bool>();
}

record::CsvRequest request_of(const Json& json, const SentFile& file, const record::YardFacts& facts) {
  record::CsvRequest request;
  request.facts = facts;
  request.sure = flag_at(json, "sure");
  request.file = file.path();
  request.source = text_at(json, "source", true);
  request.fill_id = text_at(json, "fill", true);
  request.mark.by = text_at(json, "by", true);
  request.mark.zone = text_at(json, "zone", false);
  if (json.contains("mapping") && json["mapping"].is_object()) {
    request.mapping = record::mapping_from_json(json["mapping"].dump(), "mapping");
  }
  return request;
}

Json cells_json(const std::vector<record::Refusal>& cells) {
  Json list = Json::array();
  for (std::size_t i = 0; i < std::min(cells.size(), most_told); ++i) {
    const record::Refusal& one = cells[i];
    list.push_back(Json{{"line", one.line}, {"column", one.column}, {"value", one.value}, {"why", one.why}});
  }
  return list;
}

Json preview_json(const record::CsvPreview& preview, UnitSystem units) {
  Json first = Json::array();
  for (std::size_t i = 0; i < std::min(preview.readings.size(), most_shown); ++i) {
    const record::Reading& one = preview.readings[i];
    first.push_back(Json{{"at_s", one.at.time_since_epoch().count()},
                         {"measure", record::info(one.measure).key},
                         {"value", one.value},
                         {"place_words", record::words(one.place, units)}});
  }
  return {{"rows", preview.rows},
          {"good", preview.readings.size()},
          {"known", preview.known},
          {"nothing", preview.nothing},
          {"refused_count", preview.refused.size()},
          {"refused", cells_json(preview.refused)},
          {"held_count", preview.held.size()},
          {"held", cells_json(preview.held)},
          {"first", first},
          {"notes", preview.notes}};
}

}  // namespace

Response get_loggers(ServerContext& context, const Request&) {
  const auto store = context.stores.take();
  Json list = Json::array();
  for (const record::CsvSource& one : record::all<record::CsvSource>(*store)) {
    list.push_back(Json{{"name", one.name}, {"mapping", Json::parse(one.mapping)}});
  }
  return answer({{"loggers", list}});
}

Response preview_import(ServerContext& context, const Request& ask) {
  const Json json = body_json(ask);
  if (!json.is_object()) throw InputError("import", "is no object", "send a JSON object");
  const SentFile file(text_at(json, "text", true));
  const auto store = context.stores.take();
  return answer(preview_json(record::preview_csv(*store, request_of(json, file, context.facts)), context.site.units));
}

Response import_file(ServerContext& context, const Request& ask) {
  const Json json = body_json(ask);
  if (!json.is_object()) throw InputError("import", "is no object", "send a JSON object");
  context.store_watch.refuse_damaged();
  const SentFile file(text_at(json, "text", true));
  const auto store = context.stores.take();
  const record::CsvPreview preview = record::preview_csv(*store, request_of(json, file, context.facts));
  if (!preview.refused.empty() && !flag_at(json, "take_good")) {
    throw InputError("file", "holds " + std::to_string(preview.refused.size()) + " cells that are refused",
                     "mend them, or store the others alone; nothing was stored");
  }
  Json told = preview_json(preview, context.site.units);
  told["stored"] = record::import_csv(preview, [&](const record::ImportPart& part) { context.writes.run(part); });
  return answer(told);
}

}  // namespace stillheap::server
