"""Pictures as arrays in → what OpenCV finds in them out. The only module that imports it.

Everything here is coarse: what is measured to parts of a pixel is read from the photo itself by
`sampling`, since OpenCV rounds places to 1/32 of a pixel where it moves pictures.
"""

from types import ModuleType

import numpy as np

from guidegen.bench.photos.arrays import Array, BenchMask, Pixels, Whole
from guidegen.bench.photos.strips import CODES, SeenMarker
from guidegen.errors import MissingLibrary

INSTALL = 'pip install "guidegen[trace]"'
"""What brings the library."""

MIN_SIDE = 0.008
"""Least side of a marker, as a share of the photo's longer side: below, its cells blur."""


def load() -> ModuleType:
    """OpenCV. Raises MissingLibrary, which says how to get it."""
    try:
        import cv2  # noqa: PLC0415 - an extra: large, and few need it
    except ImportError:
        raise MissingLibrary(
            f"reading photos needs the library OpenCV, which is not installed: {INSTALL}"
        ) from None
    # One thread: sums of several come in any order, and the same photo has to give the same lines.
    cv2.setNumThreads(1)
    cv2.ocl.setUseOpenCL(False)
    return cv2


def find_markers(grey: Pixels) -> list[SeenMarker]:
    """The markers of strips in a grey photo, by number; a number seen twice is left out."""
    cv2 = load()
    family = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_APRILTAG_36h11)
    settings = cv2.aruco.DetectorParameters()
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    settings.minMarkerPerimeterRate = 4 * MIN_SIDE
    settings.adaptiveThreshWinSizeMin = 7
    settings.adaptiveThreshWinSizeMax = 71
    settings.adaptiveThreshWinSizeStep = 16
    corners, numbers, _ = cv2.aruco.ArucoDetector(family, settings).detectMarkers(grey)
    found: dict[int, list[Array]] = {}
    for four, number in zip(corners, [] if numbers is None else numbers.ravel(), strict=True):
        if number < len(CODES):
            found.setdefault(int(number), []).append(four.reshape(4, 2).astype(np.float64))
    return [SeenMarker(number, all_[0]) for number, all_ in sorted(found.items()) if len(all_) == 1]


def shrink(picture: Pixels, most: int) -> tuple[Pixels, float]:
    """A picture whose longer side has at most `most` pixels, and by what it was divided."""
    cv2 = load()
    factor = max(picture.shape[:2]) / most
    if factor <= 1:
        return picture, 1.0
    size = (round(picture.shape[1] / factor), round(picture.shape[0] / factor))
    return np.asarray(cv2.resize(picture, size, interpolation=cv2.INTER_AREA)), factor


def grey_of(picture: Pixels) -> Pixels:
    """The brightness of a colour picture."""
    cv2 = load()
    return np.asarray(cv2.cvtColor(picture, cv2.COLOR_RGB2GRAY))


def flatten(picture: Pixels, places: Array, shape: tuple[int, int]) -> Pixels:
    """The picture at `places` (pixels, row by row), rounded as OpenCV does; outside it is black."""
    cv2 = load()
    maps = places.reshape(*shape, 2).astype(np.float32)
    return np.asarray(cv2.remap(picture, maps[..., 0], maps[..., 1], cv2.INTER_LINEAR))


def blur(values: Array, sigma: float) -> Array:
    """Smoothed by a bell curve of `sigma` pixels; beyond the rim the rim goes on."""
    cv2 = load()
    done = cv2.GaussianBlur(values, (0, 0), sigma, borderType=cv2.BORDER_REPLICATE)
    return np.asarray(done)


def slopes(values: Array) -> Array:
    """The steepness of each pixel, per pixel; for several colours the largest of them."""
    cv2 = load()
    across = cv2.Scharr(values, -1, 1, 0, scale=1 / 32)
    down = cv2.Scharr(values, -1, 0, 1, scale=1 / 32)
    steep = np.hypot(across, down)
    return np.asarray(steep.max(axis=2) if steep.ndim == 3 else steep)


def closed_up(values: Array, width: int) -> Array:
    """Dark lines up to `width` pixels filled with what lies beside them."""
    cv2 = load()
    disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (width | 1, width | 1))
    return np.asarray(cv2.morphologyEx(values, cv2.MORPH_CLOSE, disc))


def grown(mask: BenchMask, pixels: int) -> BenchMask:
    """A mask wider by `pixels` all round; narrower where they are negative."""
    cv2 = load()
    size = 2 * abs(pixels) + 1
    disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))
    work = cv2.dilate if pixels > 0 else cv2.erode
    return np.asarray(work(mask.astype(np.uint8), disc)) > 0


def patches(mask: BenchMask, *, diagonal: bool = False) -> tuple[Whole, Whole]:
    """Connected patches: the number of each pixel's, from 1; and rows of x, y, wide, high, area."""
    cv2 = load()
    _, labels, boxes, _ = cv2.connectedComponentsWithStats(
        mask.astype(np.uint8), connectivity=8 if diagonal else 4
    )
    return labels.astype(np.int64), boxes.astype(np.int64)


def depth(mask: BenchMask) -> Array:
    """How far each pixel of a mask is from its rim, in pixels."""
    cv2 = load()
    done = cv2.distanceTransform(mask.astype(np.uint8), cv2.DIST_L2, cv2.DIST_MASK_PRECISE)
    return np.asarray(done, dtype=np.float64)


def rims(mask: BenchMask) -> list[tuple[Array, bool]]:
    """The rings around a mask's patches, and whether each is the rim of a hole in one."""
    cv2 = load()
    rings, parents = cv2.findContours(mask.astype(np.uint8), cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)[
        -2:
    ]
    if parents is None:
        return []
    return [
        (ring.reshape(-1, 2).astype(np.float64), int(parent[3]) >= 0)
        for ring, parent in zip(rings, parents[0], strict=True)
    ]


def filled(shape: tuple[int, int], rings: list[Array]) -> BenchMask:
    """The inside of rings of points (pixels)."""
    cv2 = load()
    mask = np.zeros(shape, np.uint8)
    if rings:
        cv2.fillPoly(mask, [np.round(ring).astype(np.int32) for ring in rings], 1)
    return mask > 0


def resized(values: Array, shape: tuple[int, int]) -> Array:
    """Values with another number of rows and columns: averages where fewer, slopes where more."""
    cv2 = load()
    fewer = shape[0] < values.shape[0]
    how = cv2.INTER_AREA if fewer else cv2.INTER_LINEAR
    return np.asarray(cv2.resize(values.astype(np.float32), shape[::-1], interpolation=how))


def jpeg(picture: Pixels, quality: int = 80) -> bytes:
    """A picture packed: its pixels alone."""
    cv2 = load()
    done, data = cv2.imencode(".jpg", picture[..., ::-1], [cv2.IMWRITE_JPEG_QUALITY, quality])
    if not done:
        raise ValueError("the picture could not be packed")
    return bytes(data.tobytes())
