"""Opens the 3-D fields with two general libraries, VTK and meshio, and measures known values in them.

usage: read_fields.py VIEWER_SAMPLE FOLDER; exit 77: none of the libraries is installed, nothing was checked.
"""

import pathlib
import subprocess
import sys
import xml.etree.ElementTree as xml

SKIPPED = 77
DAYS_AND_HEIGHTS_M = [(0.5, 1.5), (28.0, 1.2)]
BASE_M2 = 1.0 * 0.8
PLACES_M = [(0.0, 0.0, 0.6), (-0.31, 0.22, 0.1), (0.45, -0.39, 1.15)]
FLOAT_STEP = 2e-6  # the fields are 32-bit: relative step 6e-8, values to 30, twice interpolated


def expected(x, y, z):
    return {
        "temperature_degC": 20 + 10 * x + 5 * y + 3 * z,
        "oxygen_share": 0.10 + 0.02 * z,
        "moisture_wet": 0.50 + 0.10 * x,
    }


def near(what, found, wanted, give):
    if not abs(found - wanted) <= give:
        sys.exit(f"{what}: {found}, expected {wanted} within {give}")


def files_of(collection):
    """File and day of each snapshot, by the collection that names them."""
    sets = xml.parse(collection).getroot().find("Collection").findall("DataSet")
    return [(collection.parent / one.get("file"), float(one.get("timestep"))) for one in sets]


def measure_with_vtk(file, day, height_m):
    from vtkmodules.vtkCommonCore import vtkVersion
    from vtkmodules.vtkCommonDataModel import vtkPolyData
    from vtkmodules.vtkCommonCore import vtkPoints
    from vtkmodules.vtkFiltersCore import vtkProbeFilter
    from vtkmodules.vtkFiltersVerdict import vtkCellSizeFilter
    from vtkmodules.vtkIOXML import vtkXMLUnstructuredGridReader

    reader = vtkXMLUnstructuredGridReader()
    reader.SetFileName(str(file))
    reader.Update()
    grid = reader.GetOutput()
    near("time", grid.GetFieldData().GetArray("TimeValue").GetValue(0), day, 1e-12)
    sizes = vtkCellSizeFilter()
    sizes.SetInputConnection(reader.GetOutputPort())
    sizes.Update()
    volumes = sizes.GetOutput().GetCellData().GetArray("Volume")
    volume = [volumes.GetValue(i) for i in range(volumes.GetNumberOfTuples())]
    if min(volume) <= 0:
        sys.exit("a wedge stands inside out")
    near("volume", sum(volume), BASE_M2 * height_m, 1e-6)
    points = vtkPoints()
    for place in PLACES_M:
        points.InsertNextPoint(place)
    where = vtkPolyData()
    where.SetPoints(points)
    probe = vtkProbeFilter()
    probe.SetInputData(where)
    probe.SetSourceConnection(reader.GetOutputPort())
    probe.Update()
    data = probe.GetOutput().GetPointData()
    for i, place in enumerate(PLACES_M):
        if not data.GetArray("vtkValidPointMask").GetValue(i):
            sys.exit(f"VTK finds no cell at {place}")
        for name, value in expected(*place).items():
            near(f"{name} at {place}", data.GetArray(name).GetValue(i), value, FLOAT_STEP * 10)
    return f"VTK {vtkVersion.GetVTKVersion()}"


def measure_with_meshio(file, day, height_m):
    import meshio

    mesh = meshio.read(file)
    kinds = {block.type for block in mesh.cells}
    if kinds != {"wedge"}:
        sys.exit(f"meshio finds cells of {kinds}, expected wedges")
    near("top", mesh.points[:, 2].max(), height_m, 1e-6)
    for point, *values in zip(mesh.points, *(mesh.point_data[name] for name in expected(0, 0, 0))):
        for (name, value), found in zip(expected(*point).items(), values):
            near(f"{name} at {point}", float(found), value, FLOAT_STEP * 10)
    return f"meshio {meshio.__version__}"


def main(sample, folder):
    folder = pathlib.Path(folder)
    subprocess.run([sample, str(folder)], check=True)
    files = files_of(folder / "fields.pvd")
    if [day for _, day in files] != [day for day, _ in DAYS_AND_HEIGHTS_M]:
        sys.exit(f"the collection names other days: {files}")
    used = set()
    for measure in (measure_with_vtk, measure_with_meshio):
        try:
            for (file, _), (day, height_m) in zip(files, DAYS_AND_HEIGHTS_M):
                used.add(measure(file, day, height_m))
        except ImportError as missing:
            print(f"not checked with it: {missing}")
    if not used:
        print("skipped: install python3-vtk9 or python3-meshio")
        return SKIPPED
    print("opened and measured with " + " and ".join(sorted(used)))
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
