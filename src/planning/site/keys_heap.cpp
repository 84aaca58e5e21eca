#include <array>

#include "planning/site/key.hpp"

namespace stillheap::site {
namespace {

using D = Dimension;
using F = Form;
using N = Need;

constexpr std::string_view practice = "common practice, no source";

// Two or three lines a key, by hand: the formatter would give every field its own line.
// clang-format off
constexpr std::array rows{
    Key{.section = "feedstock", .name = "id", .form = F::text, .need = N::required,
        .help = "Short name used elsewhere in the file."},
    Key{.section = "feedstock", .name = "name", .form = F::text, .need = N::worked_out, .standard = "the id",
        .source = "chosen", .help = "What people call it."},
    Key{.section = "feedstock", .name = "like", .form = F::text,
        .help = "Typical material to take values from; whatever is given beside it wins. Needed unless every "
                "value is given."},
    Key{.section = "feedstock", .name = "values_from", .form = F::text, .need = N::has_default,
        .standard = "site file, no report named", .source = "chosen",
        .help = "Where the own values come from, for example the laboratory and its report."},
    Key{.section = "feedstock", .name = "moisture", .form = F::amount, .dimension = D::fraction, .low = from("0 %"),
        .high = to("95 %"), .help = "Water by mass as delivered."},
    Key{.section = "feedstock", .name = "carbon", .form = F::amount, .dimension = D::fraction, .low = above("0 %"),
        .high = to("70 %"), .help = "Total organic carbon by dry mass."},
    Key{.section = "feedstock", .name = "nitrogen", .form = F::amount, .dimension = D::fraction, .low = above("0 %"),
        .high = to("20 %"), .help = "Total nitrogen by dry mass."},
    Key{.section = "feedstock", .name = "ash", .form = F::amount, .dimension = D::fraction, .low = from("0 %"),
        .high = to("90 %"), .help = "Mineral matter by dry mass."},
    Key{.section = "feedstock", .name = "bulk_density", .form = F::amount, .dimension = D::density,
        .low = from("20 kg/m3"), .high = to("1600 kg/m3"), .help = "As delivered, loosely filled."},
    Key{.section = "feedstock", .name = "conductivity", .form = F::amount, .dimension = D::conductivity,
        .low = from("0 dS/m"), .high = to("50 dS/m"),
        .help = "Of the extract of 1 part dry mass in 5 parts water."},
    Key{.section = "feedstock", .name = "pools", .form = F::three_amounts, .dimension = D::fraction,
        .low = from("0 %"), .high = to("100 %"),
        .help = "Degradable parts by dry mass: fast, medium, slow. The rest lasts."},
    Key{.section = "feedstock", .name = "rates", .form = F::three_amounts, .dimension = D::rate,
        .low = from("0 %/d"), .high = to("100 %/d"),
        .help = "First-order rates of the three pools at 20 degC with nothing else limiting."},
    Key{.section = "feedstock", .name = "stock", .form = F::amount, .dimension = D::mass, .by_volume_too = true,
        .low = from("0 kg"), .help = "How much there is, by mass or volume; left out: as much as needed."},
    Key{.section = "feedstock", .name = "at_least", .form = F::amount, .dimension = D::mass, .by_volume_too = true,
        .low = from("0 kg"), .need = N::has_default, .standard = "0 kg", .source = "chosen",
        .help = "How much must go into each vessel, by mass or volume."},
    Key{.section = "feedstock", .name = "price", .form = F::amount, .dimension = D::money_per_mass,
        .by_volume_too = true, .low = from("0 per t"), .need = N::has_default, .standard = "0 per t",
        .source = "chosen: no price given", .help = "By mass or volume, delivered."},
    Key{.section = "feedstock", .name = "arises", .form = F::months, .dimension = D::volume, .low = from("0 m3"),
        .high = to("10000 m3"),
        .help = "What there is of it in each month, loose, half of it in each half; for the yard plan. Left out: "
                "whenever it is wanted."},
    Key{.section = "feedstock", .name = "keeps", .form = F::amount, .dimension = D::duration, .low = from("0 d"),
        .high = to("1000 d"), .need = N::has_default, .standard = "0 d", .source = "chosen",
        .help = "How long it may lie before it is filled in, beside `arises`; 0 d: only in the half-month it arises in."},

    Key{.section = "blend", .name = "shares", .form = F::shares, .dimension = D::fraction, .low = from("0 %"),
        .high = to("100 %"),
        .help = "Fixed recipe: feedstock id = share, as delivered. Must add up to 100 % within 1 %, and is then "
                "brought to exactly 100 %. Left out: the blend is searched under the limits below."},
    Key{.section = "blend", .name = "shares_by", .form = F::word, .choices = "mass|volume", .need = N::has_default,
        .standard = "mass", .source = "chosen",
        .help = "What the shares are parts of: mass or loose volume (pails)."},
    Key{.section = "blend", .name = "aim", .form = F::word, .choices = "least cost|use up stock",
        .need = N::has_default, .standard = "least cost", .source = "chosen",
        .help = "What the search is for: \"use up stock\" takes as much as it can of what has a stock."},
    Key{.section = "blend", .name = "carbon_to_nitrogen", .form = F::number_pair,
        .low = low_of(limits::carbon_to_nitrogen),
        .high = high_of(limits::carbon_to_nitrogen), .need = N::has_default, .standard = "[25, 40]",
        .source = "7 CFR 205.203(c)(2): 25 to 40",
        .help = "Lowest and highest C:N, from total carbon."},
    Key{.section = "blend", .name = "moisture", .form = F::amount_pair, .dimension = D::fraction,
        .low = low_of(limits::soaked_moisture), .high = high_of(limits::soaked_moisture), .need = N::has_default,
        .standard = "[60 %, 70 %]",
        .source = practice, .help = "Lowest and highest moisture after soaking."},
    Key{.section = "blend", .name = "free_air_space", .form = F::amount_pair, .dimension = D::fraction,
        .low = from("5 %"), .high = to("90 %"), .need = N::has_default, .standard = "[30 %, 60 %]",
        .source = "chosen; 30 % is the usual least", .help = "Lowest and highest free air space after soaking."},
    Key{.section = "blend", .name = "conductivity_at_most", .form = F::amount, .dimension = D::conductivity,
        .low = above("0 dS/m"), .high = to("50 dS/m"), .need = N::has_default, .standard = "4 dS/m",
        .source = "chosen", .help = "Highest salts of the blend, as conductivity of the 1:5 extract."},
    Key{.section = "blend", .name = "soaked_moisture", .form = F::amount, .dimension = D::fraction,
        .low = low_of(limits::soaked_moisture), .high = high_of(limits::soaked_moisture), .need = N::has_default,
        .standard = "65 %", .source = practice,
        .help = "Moisture to soak to."}, 

    Key{.section = "bath", .name = "volume", .form = F::amount, .dimension = D::volume, .low = from("10 L"),
        .high = to("20 m3"), .need = N::has_default, .standard = "200 L", .source = "chosen",
        .help = "Water in the soaking bath."},
    Key{.section = "bath", .name = "count", .form = F::whole, .low = from("1"), .high = to("20"),
        .need = N::has_default, .standard = "1", .source = "chosen",
        .help = "Baths that soak side by side; the fill card says how many end the filling in a day."},
    Key{.section = "bath", .name = "load", .form = F::amount, .dimension = D::fraction, .low = from("5 %"),
        .high = to("100 %"), .need = N::has_default, .standard = "50 %", .source = "chosen",
        .help = "Loose feedstock a batch, by volume of the bath."},
    Key{.section = "bath", .name = "soak", .form = F::amount, .dimension = D::duration, .low = from("1 min"),
        .high = to("7 d"), .need = N::has_default, .standard = "30 min", .source = practice,
        .help = "Time in the bath."},
    Key{.section = "bath", .name = "drain", .form = F::amount, .dimension = D::duration, .low = from("0 min"),
        .high = to("2 d"), .need = N::has_default, .standard = "10 min", .source = practice,
        .help = "Time to drip off."}, 

    Key{.section = "fill", .name = "pail", .form = F::amount, .dimension = D::volume, .low = from("1 L"),
        .high = to("2 m3"), .need = N::has_default, .standard = "5 gal", .source = practice,
        .help = "Volume of a pail, or of a loader's bucket."},
    Key{.section = "fill", .name = "pails_a_lift", .form = F::whole, .low = from("1"), .high = to("500"),
        .need = N::has_default, .standard = "7", .source = practice, .help = "Pails between two levellings."},
    Key{.section = "fill", .name = "people", .form = F::whole, .low = from("1"), .high = to("100"),
        .need = N::has_default, .standard = "2", .source = "chosen", .help = "People who fill together."},
    Key{.section = "fill", .name = "pails_per_person_hour", .form = F::number, .low = above("0"), .high = to("200"),
        .need = N::has_default, .standard = "13",
        .source = "common practice, no source: 90 pails in 3 to 4 hours by two people",
        .help = "Pace of one person, soaking included."},
    Key{.section = "fill", .name = "inoculum", .form = F::amount, .dimension = D::fraction, .low = from("0 %"),
        .high = to("30 %"), .need = N::has_default, .standard = "0 %", .source = "chosen",
        .help = "Finished compost mixed in, by dry mass of the fill."},
    Key{.section = "fill", .name = "temperature", .form = F::amount, .dimension = D::temperature,
        .low = from("0 degC"), .high = to("60 degC"), .need = N::worked_out,
        .standard = "mean outside air of the first day, not below 5 degC", .source = "chosen",
        .help = "Of the soaked material on the day of filling; warm water in the bath raises it."},
    Key{.section = "fill", .name = "settled_density", .form = F::amount, .dimension = D::density,
        .low = from("50 kg/m3"), .high = to("1200 kg/m3"), .need = N::worked_out,
        .standard = "that of the loose feedstocks, soaked", .source = "chosen",
        .help = "Of the soaked material as it lies in the full vessel: weigh the pails that went in. Above the loose "
                "one where it is trodden or settles while it is filled; more goes in then, with less air between."},
    Key{.section = "fill", .name = "forms_out_after", .form = F::amount, .dimension = D::duration,
        .low = from("1 h"), .high = to("14 d"), .need = N::has_default, .standard = "1 d", .source = practice,
        .help = "When the pipes are pulled and leave their channels."},
};
// clang-format on

}  // namespace

std::span<const Key> heap_keys() noexcept { return rows; }

}  // namespace stillheap::site
