#include <fstream>
#include <iterator>

#include "core/base/error.hpp"
#include "record_command.hpp"
#include "record_options.hpp"
#include "yard/record/photo.hpp"

namespace stillheap::app {
namespace {

struct PhotoOptions : RecordOptions {
  FillChoice fill;
  std::string file, note;
};

std::string read_bytes(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(in), {}};
  if (!in.is_open() || in.bad()) throw InputError(file, "cannot be read", "give the path of a picture");
  return bytes;
}

void record_photo(const PhotoOptions& options) {
  record::Store store = open_to_note(options, false);
  const record::Fill fill = find_fill(store, options.fill);
  record::Photo photo = record::keep_photo(store, read_bytes(options.file));
  photo.fill_id = fill.mark.thing;
  photo.taken_at = time_of(options);
  photo.note = options.note;
  try {
    store_entry(options, store, photo, "photo", record::photo_file(store, photo).string());
  } catch (...) {
    record::forget_photo(store, photo);
    throw;
  }
}

}  // namespace

void add_record_photo(CLI::App& record) {
  const auto options = std::make_shared<PhotoOptions>();
  CLI::App* command = record.add_subcommand("photo", "A picture; a copy is kept beside the records");
  add_entry_options(*command, *options);
  add_fill_options(*command, options->fill);
  command->add_option("FILE", options->file, "JPEG, PNG or WebP file")->required();
  command->add_option("--note", options->note, "What it shows");
  command->callback([options] { record_photo(*options); });
}

}  // namespace stillheap::app
