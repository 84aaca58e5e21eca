"""What the conditioning moves, and the records it learns from. One home for both; see docs/decisions/0010-conditioning.md."""
import pathlib
import re
import tomllib

ROOT = pathlib.Path(__file__).resolve().parents[2]
RECORDS = ROOT / "tests/outside/records"
HERE = pathlib.Path(__file__).resolve().parent
SEED = 20

# Inputs that the emulators see, in the order of their columns. The first group is learned for every heap, the second is
# of one record alone (what its author did not print). All count in standard deviations of their prior.
LEARNED = ["rate_factor", "temperature_most_c", "particle_size_m", "holding_capacity", "moisture_half_wet",
           "oxygen_half_percent", "film_factor", "cool_factor_10k", "height_per_solids"]
OWN = ["density", "moisture", "fast", "size"]
INPUTS = LEARNED + OWN

# Record -> file, class. Classes as material::Kind; by what makes the heat.
CLASSES = ["wood", "dry plant", "fresh", "manure", "ripe"]
FILES = {
    "V1": ("whittaker-2016-rothamsted", "wood"), "V2": ("whittaker-2016-east-midlands", "wood"),
    "V3": ("whittaker-2017-willow", "wood"), "V4": ("sampson-mcbeath-1987", "wood"),
    "V5": ("sartaj-1997-natural", "manure"), "V6": ("sommer-dahl-1999-compressed", "manure"),
    "V7": ("sommer-dahl-1999-untreated", "manure"), "V8": ("karnchanawong-2011", "fresh"),
    "V9": ("public-lab-2016-cage", "fresh"), "V10": ("lynch-cherry-1996", "manure"),
    "V11": ("kamp-2024-litter", "manure"), "V12": ("mound-2017-chips-manure", "wood"),
    "V13": ("mound-2014-hardwood", "wood"), "V14": ("leaves-2015-huron", "dry plant"),
    "V15": ("bin-2015-horse-leaves", "fresh"),
}
# Records of one author's one trial go together when a record is left out with its sisters.
SISTERS = [["V1", "V2"], ["V6", "V7"]]

# Prior standard deviation of a class's rate, in deviations of the table: wood is known to a factor of five either way
# (two deviations of a logarithm of 0.8), the table has 0.5.
RATE_SPREAD = {"wood": 1.6}


def parameter_names():
    """Members of physics::Parameters in the order of its table of rows."""
    text = (ROOT / "src/model/physics/parameters.cpp").read_text()
    return re.findall(r"&P::(\w+)", text)


def columns():
    """Name of each deviate of records_ensemble, in order."""
    return ["density", "moisture", "fast", "medium", "slow"] + parameter_names() + ["size"]


def measured():
    """Record -> {key: (low, high)} from records.toml; a single number has low = high."""
    table = tomllib.loads((ROOT / "tests/outside/records.toml").read_text())
    out = {}
    for check in table["check"]:
        if check["id"] in FILES:
            out[check["id"]] = {key: (want["low"], want["high"]) if "low" in want else (want["value"],) * 2
                                for key, want in check["expect"].items()}
    return out
