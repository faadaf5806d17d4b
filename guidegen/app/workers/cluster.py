"""Jobs in → results to come, made by the workers of a cluster.

The only module that imports distributed. What a job is given travels once, named by its hash; the
jobs of a worker that is lost are given to others. A cluster runs whatever it is sent: keep it in
a network of your own, or give its scheduler certificates.
"""

import hashlib
import pickle
import socket
from collections import OrderedDict
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from threading import Lock
from typing import Any
from urllib.parse import urlsplit

from guidegen.app.workers.local import Pool, Result
from guidegen.buildfile.read.fingerprint import software_fingerprint
from guidegen.errors import MissingLibrary, OutputError, UsageError

INSTALL = """\
a cluster needs the library distributed, which is not installed. Install guidegen with it:
    pip install "guidegen[cluster]\""""

PATIENCE = 10
"""Seconds in which a scheduler must answer. Our choice."""

TRIES = 3
"""How often a job is sent out again after its worker was lost. Our choice."""

LARGE = 20_000
"""Bytes from which a thing is shipped once, by its hash, and not with each job. Our choice."""

SHIPPED = 64
"""Things that stay on the workers, in case that another job needs them. Our choice."""

_ONE_AT_A_TIME = Lock()


@dataclass(frozen=True)
class _Place:
    """Stands for a thing that is shipped apart, at this number."""

    number: int


def _unpack(data: bytes) -> Any:  # noqa: ANN401 - anything that a job is given
    return pickle.loads(data)  # noqa: S301 - sent by the press itself, never read from content


def _work(call: bytes, *shipped: bytes) -> object:
    """In a worker: do a job, one at a time, since a worker may have several threads."""
    job, args, kwargs = _unpack(call)
    given = [_unpack(shipped[arg.number]) if isinstance(arg, _Place) else arg for arg in args]
    with _ONE_AT_A_TIME:
        return job(*given, **kwargs)


class _Sent[R]:
    """A job that a worker has; it is sent out again when the worker is lost."""

    def __init__(self, send: Callable[[], Any], lost: tuple[type[Exception], ...]) -> None:
        self._send, self._lost = send, lost
        self._future = send()

    def result(self) -> R:
        """Wait for it. Raises what the job raised, OutputError where workers are lost."""
        for _ in range(TRIES):
            try:
                return self._future.result()  # type: ignore[no-any-return]
            except self._lost:
                self._future = self._send()
        try:
            return self._future.result()  # type: ignore[no-any-return]
        except self._lost as error:
            raise OutputError(
                f"the cluster lost {TRIES + 1} workers over one job ({error}); "
                "the old output is as it was"
            ) from None


class _Cluster:
    """Workers behind one scheduler."""

    beside = False

    def __init__(self, client: Any, lost: tuple[type[Exception], ...]) -> None:  # noqa: ANN401 - distributed has no types
        self._client, self._lost = client, lost
        self._shipped: OrderedDict[str, object] = OrderedDict()
        self.size = len(client.scheduler_info(n_workers=-1)["workers"])

    def submit[**P, R](
        self, job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs
    ) -> Result[R]:
        """The job's result, to come."""
        pickled = [pickle.dumps(arg) for arg in args]
        large = [data for data in pickled if len(data) >= LARGE]
        places = iter(range(len(large)))
        small = [
            _Place(next(places)) if len(data) >= LARGE else arg
            for arg, data in zip(args, pickled, strict=True)
        ]
        call = pickle.dumps((job, small, dict(kwargs)))

        def send() -> object:
            shipped = [self._ship(data) for data in large]
            return self._client.submit(_work, call, *shipped, pure=False)

        return _Sent[R](send, self._lost)

    def _ship(self, data: bytes) -> object:
        """A handle on bytes that every worker has; they travel once."""
        name = f"guidegen-{hashlib.sha256(data).hexdigest()}"
        there = self._shipped.pop(name, None)
        if there is None or getattr(there, "status", "") != "finished":
            there = self._client.scatter({name: data}, broadcast=True)[name]
        self._shipped[name] = there
        while len(self._shipped) > SHIPPED:
            self._shipped.popitem(last=False)
        return there


@contextmanager
def cluster_pool(address: str) -> Iterator[Pool]:
    """The workers behind the scheduler at `address`, such as tcp://10.0.0.1:8786.

    Raises MissingLibrary without distributed, and UsageError where no scheduler answers, it has
    no worker, or a worker has another guidegen or other libraries: it would set other bytes.
    """
    try:
        from distributed import Client, KilledWorker  # noqa: PLC0415 - an extra
        from distributed.client import FutureCancelledError  # noqa: PLC0415 - an extra
        from distributed.comm.core import CommClosedError  # noqa: PLC0415 - an extra
    except ImportError:
        raise MissingLibrary(INSTALL) from None
    _knock(address)
    try:
        client: Any = Client(address, timeout=PATIENCE, set_as_default=False)  # type: ignore[no-untyped-call] # distributed has no types
    except (OSError, ValueError) as error:
        raise UsageError(f"no cluster answers at {address} ({error})") from None
    try:
        _check_software(client.run(software_fingerprint))
        yield _Cluster(client, (KilledWorker, FutureCancelledError, CommClosedError))
    finally:
        client.close()


def _knock(address: str) -> None:
    """Whether somebody listens there: a client that finds nobody would go on trying."""
    try:
        parts = urlsplit(address)
        host, port = parts.hostname, parts.port
        if parts.scheme not in {"tcp", "tls"} or not host or not port:
            raise UsageError(f'"{address}" is no address of a cluster: expected tcp://host:port')
        socket.create_connection((host, port), timeout=PATIENCE).close()
    except (OSError, ValueError) as error:
        raise UsageError(f"no cluster answers at {address} ({error})") from None


def _check_software(found: Mapping[str, str]) -> None:
    if not found:
        raise UsageError("the cluster has no worker; start some: dask worker ADDRESS --nthreads 1")
    own = software_fingerprint()
    if other := sorted(worker for worker, software in found.items() if software != own):
        raise UsageError(
            f"{other[0]} has another version of guidegen, Python or a library than this machine: "
            "install the same on all"
        )
