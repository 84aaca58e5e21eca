#pragma once
#include "planning/site/reader.hpp"
#include "planning/site/site.hpp"

/// From a document to the Site, one part each; checks between keys are made here.
namespace stillheap::site {

void build_yard(Reader& reader, const Document& document, Site& site);  ///< site, place, goal
void build_weather(Reader& reader, const Document& document, Site& site);
void build_feedstocks(Reader& reader, const Document& document, Site& site);
void build_blend(Reader& reader, const Document& document, Site& site);    ///< after the feedstocks
void build_work(Reader& reader, const Document& document, Site& site);     ///< bath, fill, labour, prices
void build_vessels(Reader& reader, const Document& document, Site& site);  ///< after the goal
void build_stock(Reader& reader, const Document& document, Site& site);
void build_supply(Reader& reader, const Document& document, Site& site);  ///< after goal, feedstocks and vessels
void build_loads(Reader& reader, const Document& document, Site& site);
void build_water(Reader& reader, const Document& document, Site& site);  ///< after the vessels
void build_forecast(Reader& reader, const Document& document, Site& site);

/// The channels of one vessel, with every clash told.
void build_channels(Reader& reader, const Section& section, vessel::Design& design);

/// The base of one vessel with its slats.
void build_base(Reader& reader, const Section& section, vessel::Design& design);

}  // namespace stillheap::site
