"""What does the same work for many things: this process alone, or Dask on this machine or on a cluster.

Dask is imported when a cluster is asked for, so that all else does without it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager
from itertools import islice
from typing import TYPE_CHECKING, NoReturn, Protocol, TypeVar

from leafturn.base.faults import Fault, Unreadable

if TYPE_CHECKING:
    from distributed import Client, Future

Thing = TypeVar("Thing")
Result = TypeVar("Result")


class Engine(Protocol):
    """Does work for many things, in whatever order."""

    def __call__(
        self,
        work: Callable[[Thing], Result],
        things: Iterable[Thing],
        lost: Callable[[Thing, str], Result],
    ) -> Iterator[Result]:
        """What the work comes to, a result a thing, as they come.

        Parameters
        ----------
        work : callable
            A function of a module, so that other processes find it.
        things : iterable
        lost : callable
            What stands for the result of a thing whose process ended with it; is told why.
        """


AHEAD = 4  # things under way or waiting for each thread of the cluster, so that none is idle
LEAST_AHEAD = 16  # for clusters that name no threads yet
CONNECT_SECONDS = 20
# How the processes of this machine run. Dask has memory given back to the system at every turn, which costs
# half as much again where arrays come and go (0.46 s a garden for 0.31), and watches itself closely, which is
# of no use to a run that nobody watches.
LEAN = {
    "distributed.nanny.pre-spawn-environ": {
        "OMP_NUM_THREADS": 1, "MKL_NUM_THREADS": 1, "OPENBLAS_NUM_THREADS": 1,
    },
    "distributed.worker.profile.enabled": False,
    "distributed.admin.tick.interval": "500ms",
    "distributed.admin.system-monitor.interval": "10s",
    "distributed.admin.system-monitor.gil.enabled": False,
}  # fmt: skip
LACKING = "Dask is not installed, so that only this process can ask."
INSTALL = "Install leafturn[fleet], or ask with --workers 0."


def engine_of(workers: int, scheduler: str | None) -> AbstractContextManager[Engine]:
    """The engine meant by so many processes, 0 for this one alone, or by the address of a scheduler."""
    if scheduler:
        return cluster_at(scheduler)
    return local_cluster(workers) if workers else this_process()


@contextmanager
def this_process() -> Iterator[Engine]:
    """Do one after the other, here."""

    def done(
        work: Callable[[Thing], Result], things: Iterable[Thing], lost: Callable[[Thing, str], Result]
    ) -> Iterator[Result]:
        return map(work, things)

    yield done


@contextmanager
def local_cluster(workers: int) -> Iterator[Engine]:
    """Work in so many processes of this machine; they talk to each other alone, by keys made for the run.

    Raises
    ------
    Unreadable
        If Dask is not installed.
    """
    try:
        import dask
        from distributed import Client, LocalCluster, Security
    except ImportError:
        _refuse("leafturn fleet", LACKING, INSTALL)
    with (
        dask.config.set(LEAN),
        LocalCluster(
            n_workers=workers,
            threads_per_worker=1,
            host="127.0.0.1",
            dashboard_address=None,
            security=Security.temporary(),
            silence_logs=50,
        ) as cluster,
        Client(cluster) as client,
    ):
        yield _engine(client)


@contextmanager
def cluster_at(address: str) -> Iterator[Engine]:
    """Work by a scheduler that runs already; its workers have leafturn and see the same files.

    Raises
    ------
    Unreadable
        If Dask is not installed, or no scheduler answers.
    """
    try:
        from distributed import Client
    except ImportError:
        _refuse("leafturn fleet", LACKING, INSTALL)
    try:
        client = Client(address, timeout=CONNECT_SECONDS)
    except (OSError, ValueError, TypeError):
        _refuse(address, "no scheduler of Dask answers there.", "Such an address is tcp://host:8786.")
    with client:
        yield _engine(client)


def _engine(client: Client) -> Engine:
    from distributed import as_completed

    def done(
        work: Callable[[Thing], Result], things: Iterable[Thing], lost: Callable[[Thing, str], Result]
    ) -> Iterator[Result]:
        rest, sent = iter(things), dict[object, Thing]()

        def send(some: Iterable[Thing]) -> Iterator[Future]:
            for thing in some:
                future = client.submit(work, thing, pure=False)
                sent[future.key] = thing
                yield future

        under_way = max(LEAST_AHEAD, AHEAD * sum(client.nthreads().values()))
        results = as_completed(list(send(islice(rest, under_way))))
        for future in results:
            why = _why_lost(future)
            thing = sent.pop(future.key)
            yield future.result() if why is None else lost(thing, why)
            future.release()
            for more in send(islice(rest, 1)):
                results.add(more)

    return done


def _why_lost(future: Future) -> str | None:
    """What ended the process that worked, again and again; None where it came to a result."""
    if future.status == "finished":
        return None
    if future.status == "error":
        return f"the process that worked on it ended: {type(future.exception()).__name__}."
    message = "it has gone; what was done by then is kept."
    _refuse("the scheduler", message, "Ask again: it goes on from there.")


def _refuse(file: str, message: str, hint: str) -> NoReturn:
    raise Unreadable(Fault(file=file, line=None, message=message, hint=hint))
