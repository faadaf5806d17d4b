"""Cues and what each names in → the steps of a worksheet, every cue in one of them."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from guidegen.bench.talks.captions import Cue
from guidegen.bench.talks.hearing import Heard
from guidegen.buildfile.records.guide import Stage
from guidegen.buildfile.records.motions import Motion
from guidegen.buildfile.records.musts import Makes
from guidegen.buildfile.records.stock import Process, Stock

MOST_STEPS = 300
"""Steps of a worksheet. Our choice: fewer than a guide may have; all else is in the last one."""

_BY_MOTION = {
    Motion.MEASURE: Stage.PREPARING,
    Motion.MARK: Stage.CUTTING,
    Motion.PAINT: Stage.PAINTING,
    Motion.SPRAY: Stage.PAINTING,
    Motion.BRUSH: Stage.SEALING,
    Motion.FILL: Stage.SEALING,
    Motion.SAND: Stage.SEALING,
    Motion.HEAT: Stage.SEALING,
}
_BY_RESULT = {
    Makes.TEXTURE: Stage.TEXTURING,
    Makes.BEVEL: Stage.CUTTING,
    Makes.GROOVE: Stage.CUTTING,
    Makes.FORM: Stage.FORMING,
    Makes.TRIM: Stage.CUTTING,
    Makes.JOIN: Stage.GLUING,
}


@dataclass(frozen=True, slots=True)
class HeardCue:
    """A cue as the worksheet keeps it."""

    cue: Cue
    open: bool
    """True where nothing in it was recognised, or where it may mean one of several things."""
    which: tuple[str, ...] = ()
    """Those several things."""


@dataclass
class SheetStep:
    """A step of a worksheet."""

    id: str
    title: str
    stage: str
    process: str = ""
    materials: list[str] = field(default_factory=list)
    tools: list[str] = field(default_factory=list)
    cues: list[HeardCue] = field(default_factory=list)

    @property
    def start(self) -> float:
        """Seconds from the beginning of the talk."""
        return self.cues[0].cue.start if self.cues else 0.0


def make_steps(cues: Sequence[Cue], heard: Sequence[Heard], stock: Stock) -> list[SheetStep]:
    """A step for each run of cues about one kind of work; what is said before the first is one."""
    stages = {
        step.process: str(step.stage)
        for sequence in stock.sequences.values()
        for step in sequence.steps
        if step.process is not None
    }
    steps = [SheetStep("before", "Before the work", Stage.PREPARING)]
    used: dict[str, int] = {}
    for cue, named in zip(cues, heard, strict=True):
        process = named.process
        if process and process != steps[-1].process and len(steps) < MOST_STEPS:
            entry = stock.processes[process]
            stage = stages.get(process) or _stage(entry) or steps[-1].stage
            used[process] = used.get(process, 0) + 1
            number = used[process]
            id_ = process if number == 1 else f"{process}-{number}"
            steps.append(SheetStep(id_, entry.name, stage, process))
        step = steps[-1]
        step.cues.append(HeardCue(cue, named.open, tuple(named.maybe)))
        always = stock.processes[step.process].tools if step.process else ()
        step.materials += [name for name in named.materials if name not in step.materials]
        step.tools += [
            name for name in named.tools if name not in step.tools and name not in always
        ]
    return [step for step in steps if step.cues]


def _stage(process: Process) -> str:
    """Where in a build a kind of work stands, by what it makes and what hands do; empty unknown."""
    if process.cuts:
        return Stage.CUTTING
    for made in process.makes:
        return _BY_RESULT[made]
    return _BY_MOTION.get(process.motion, "") if process.motion is not None else ""
