// Scores learning from real heaps' first days (docs/decisions/0012-series-split.md). Minutes of work; prints
// tools/condition/series-scores.csv:  series_scores > FILE
#include <iostream>

#include "series_run.hpp"

using namespace stillheap;

namespace {

void print(const records::SeriesRecord& record, const records::Series& series, const records::Window& one,
           const records::Split& split) {
  const records::Scored &b = one.before, &a = one.after;
  std::printf("%s,%s,%d,%d,%d,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.1f,%.1f,%.2f,%.2f,%.1f,%.1f,%d,%d\n",
              record.record.id.c_str(), series.name.c_str(), one.days, b.days, one.used ? 1 : 0, b.misfit_k, a.misfit_k,
              b.rmse_k, a.rmse_k, one.stays_rmse_k, b.crps_k, a.crps_k, b.cover, a.cover, b.width_k, a.width_k,
              b.chart_cover, a.chart_cover, b.chart_width_k, a.chart_width_k,
              a.width_k <= split.narrowed_to * b.width_k ? 1 : 0, a.cover >= split.cover_kept_from ? 1 : 0);
  std::fflush(stdout);
}

}  // namespace

int main() {
  const records::Split split = records::read_split();
  std::printf(
      "id,series,learned_days,scored_days,used,misfit_before_k,misfit_after_k,rmse_before_k,rmse_after_k,rmse_stays_k,"
      "crps_before_k,crps_after_k,cover_before,cover_after,width_before_k,width_after_k,chart_cover_before,"
      "chart_cover_after,chart_width_before_k,chart_width_after_k,narrowed,cover_kept\n");
  for (const records::SeriesRecord& record : split.records) {
    const calibrate::LearnOptions options = records::options_for(split, record);
    const calibrate::Prior prior = calibrate::draw_prior(record.record.request, options);
    for (const records::Series& series : record.series) {
      for (const int window : split.windows_days) {
        if (series.days.back().day < window) continue;
        print(record, series, records::learn_and_score(record, prior, options, series, window), split);
      }
    }
  }
  return 0;
}
