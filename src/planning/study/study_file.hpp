#pragma once
#include "core/base/error.hpp"
#include "planning/site/toml.hpp"
#include "planning/study/study.hpp"

/// What reading a study file needs besides TOML itself.
namespace stillheap::study {

struct Reading {
  std::filesystem::path file;
  std::vector<Problem> problems;
};

[[nodiscard]] std::string place(const Reading& reading, const toml::node& node);
void refuse(Reading& reading, const toml::node& node, const std::string& key, const std::string& what,
            const std::string& mend);

/// A node written as in a site file: "\"1.2 m\"", "[2, 3]".
[[nodiscard]] std::string written(const toml::node& node);

/// One table of [vary]: `list`, or `from` and `to` with `steps`.
[[nodiscard]] std::optional<Axis> read_axis(Reading& reading, const std::string& key, const toml::table& table,
                                            Way way);

/// A value of a range at a share 0..1 of the way, written as in a site file.
[[nodiscard]] std::string value_at(const Range& range, double share);

}  // namespace stillheap::study
