#pragma once
#include <string>
#include <vector>

#include "present/draw/flow.hpp"
#include "yard/record/batch.hpp"
#include "yard/record/store.hpp"
#include "yard/state/state.hpp"

/// The tables of a batch record; each draws nothing when there is nothing to show.
namespace stillheap::sheet {

struct BatchTables {
  UnitSystem units = UnitSystem::metric;
  std::string zone;
};

/// Every rule at every probe position, then what the statement of each rule that is met anywhere says.
void draw_hygiene(Flow& flow, const yard::VesselState& state, const BatchTables& tables);
void draw_lots(Flow& flow, const record::Store& store, const std::string& fill_id, const BatchTables& tables);
void draw_events(Flow& flow, const record::Store& store, const std::string& fill_id, const BatchTables& tables);
void draw_tests(Flow& flow, const record::Store& store, const std::string& fill_id, const BatchTables& tables);
void draw_spreadings(Flow& flow, const record::Store& store, const std::string& fill_id, const BatchTables& tables);
void draw_photos(Flow& flow, const record::Store& store, const std::string& fill_id, const BatchTables& tables);
/// Every corrected or withdrawn statement of the batch beside what replaced it.
void draw_corrections(Flow& flow, const std::vector<record::BatchCorrection>& corrections);

}  // namespace stillheap::sheet
