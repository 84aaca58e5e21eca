"""What each fact is, where its home is, and how to find it again on paper, in tables and on the terminal.

A fact has one home: a value in plan.json. Every pattern below is looked for on *every* page of the pack, whatever the sheet is
called, so a new sheet that states a known fact is held to the home without a change here.
"""
import re
from dataclasses import dataclass, field
from typing import Callable

# Conversions of our own, apart from the program's: NIST SP 811, appendix B.8.
FACTORS = {"m": 1.0, "mm": 1e-3, "cm": 1e-2, "in": 0.0254, "ft": 0.3048, "kg": 1.0, "lb": 0.45359237, "L": 1e-3, "gal": 3.785411784e-3,
           "m³": 1.0, "yd³": 0.764554857984, "%": 0.01, "h": 3600.0, "min": 60.0, "kPa": 1e3, "lb/ft²": 47.88025898}


@dataclass
class Fact:
    name: str
    home: Callable  # plan.json of the site, vessel -> value in SI, or None where the site has no such fact
    patterns: list  # regular expressions with named groups, see read_match
    least: int = 1  # so many places must state it, so that a pattern that finds nothing cannot pass
    only: Callable = field(default=lambda plan: True)


def number(text):
    return float(text.replace(",", "").replace("−", "-"))


def half_step(text):
    """Half of what the last printed digit stands for."""
    digits = text.replace(",", "")
    return 0.5 * 10.0 ** -(len(digits.split(".")[1]) if "." in digits else 0)


def length(text):
    """A length as a workshop writes it -> metres, half of its finest step."""
    text = text.strip()
    metric = re.fullmatch(r"([\d,.]+) (mm|cm|m)", text)
    if metric:
        scale = FACTORS[metric[2]]
        return number(metric[1]) * scale, half_step(metric[1]) * scale
    feet = re.match(r"(\d+) ft ?", text)
    rest = text[feet.end():] if feet else text
    inches = re.fullmatch(r"(?:(\d+(?:\.\d+)?) ?)?(?:(\d+)/(\d+) ?)?in|", rest)
    if not inches:
        raise ValueError(text)
    whole = float(inches[1] or 0)
    part = int(inches[2]) / int(inches[3]) if inches[2] else 0.0
    return (int(feet[1]) if feet else 0) * 0.3048 + (whole + part) * 0.0254, 0.0254 / 16.0


LENGTH = r"(?:\d+ ft(?: \d+(?: \d+/\d+)? in)?|\d+(?: \d+/\d+)? in|\d+/\d+ in|[\d,.]+ (?:mm|m))"


def temperature(text):
    """"52.5 °C" or "126 °F" -> degrees Celsius, half of the last digit."""
    value, unit = re.fullmatch(r"(-?[\d.]+) °([CF])", text).groups()
    if unit == "C":
        return number(value), half_step(value)
    return (number(value) - 32.0) / 1.8, half_step(value) / 1.8


def duration(text):
    """"13 h 25 min" -> hours, half a five-minute step."""
    found = re.fullmatch(r"(?:(\d+) h)? ?(?:(\d+) min)?", text.strip())
    return int(found[1] or 0) + int(found[2] or 0) / 60.0, 2.5 / 60.0 + 1e-9


def plain(text):
    return number(text), half_step(text)


def mass(text):
    value, unit = text.split()
    return number(value) * FACTORS[unit], half_step(value) * FACTORS[unit]


def volume(text):
    value, unit = text.split()
    return number(value) * FACTORS[unit], half_step(value) * FACTORS[unit]


def share(text):
    return number(text[:-1].strip()) / 100.0, half_step(text[:-1].strip()) / 100.0


TEMPERATURE = r"-?[\d.]+ °[CF]"
MASS = r"[\d,.]+ (?:kg|lb)"
VOLUME = r"[\d,.]+ (?:L|gal|m³|yd³)"
DURATION = r"(?:\d+ h \d+ min|\d+ h|\d+ min)"


def outlook(key, end="middle"):
    return lambda plan, vessel: vessel["outlook"][key][end]


def of_vessel(*path):
    def read(plan, vessel):
        value = vessel
        for key in path:
            value = value[key]
        return value
    return read


def of_plan(*path):
    return lambda plan, vessel: of_vessel(*path)(plan, plan)


def is_round(plan):
    return any(vessel["design"]["footprint"] == "round" for vessel in plan["vessels"])


# name, home, [(pattern with one group, how to read it)]. Patterns of a vessel are looked for where the sheet speaks of one vessel only.
FACTS = [
    Fact("hottest place, middle", outlook("peak_temperature_c"), [(rf"hottest (?:place )?({TEMPERATURE})", temperature),
                                                                   (rf"Hottest, forecast ({TEMPERATURE})", temperature)], least=2),
    Fact("pails of one filling", of_vessel("fill", "pails"), [(r"loosely filled +(\d+) pails of", plain), (r"Fill: (\d+) pails", plain),
                                                              (r"(\d+) pails in all", plain)], least=2),
    Fact("lifts of one filling", of_vessel("fill", "lifts"), [(r"(\d+) lifts, each", plain), (r"pails in (\d+) lifts", plain),
                                                              (r"(\d+) lifts fill", plain)], least=2),
    Fact("batches of soaking", of_vessel("fill", "soak", "batches"), [(r"Soak the feedstock while filling: (\d+) batches", plain),
                                                                       (r"Soak in (\d+) batch", plain),
                                                                       (r"(\d+) batch(?:es)? for one vessel", plain)], least=3),
    Fact("bearers", of_vessel("loads", "bearers"), [(r"(\d+) bearers under the deck", plain), (r"(\d+) bearers [\d.]+ ?\S+ wide", plain)]),
    Fact("work of the first year", of_plan("costs", "labour_hours"), [(rf"Work of the first year +({DURATION})", duration),
                                                                      (rf"Work in the first year\s+({DURATION})", duration)]),
    Fact("inside diameter", of_vessel("design", "diameter_m"), [(rf"inside diameter ({LENGTH})", length),
                                                                (rf"({LENGTH}) across, both ways", length),
                                                                (rf"Inside it is then ({LENGTH}) across", length)],
         only=is_round),
    Fact("filled height", of_vessel("design", "fill_height_m"), [(rf"\bfilled ({LENGTH})", length)]),
    Fact("height of the wall", of_vessel("design", "height_m"), [(rf"\bcage ({LENGTH})", length),
                                                                 (rf"across, ({LENGTH}) high", length)], only=is_round),
    Fact("farthest from air", of_vessel("air_path", "length_m"), [(rf"farthest\s+from\s+air\s+in\s+the\s+heap:\s+({LENGTH})", length)]),
    Fact("materials of the first year", of_plan("costs", "material_cost"),
         [(r"Materials and feedstocks of the first fill, priced\s+([\d,.]+) [A-Z]{3}", plain)]),
]
