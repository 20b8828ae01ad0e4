"""The name of a job, as notes and commands write it: what it is done to, the verb, the season."""

from __future__ import annotations

import re
from collections.abc import Collection

from leafturn.base.value import Value

OWN_JOB = "own job"  # the verb of all jobs of the steward's own
WHOLE_GARDEN = "garden"  # the subject of a job that is done to the garden, whatever that is called


class JobId(Value, kw_only=False):
    """A job's id taken apart: "plant:verb:year" or "plant:verb:year:n".

    A person may leave out the year and the number, and write plant and verb either way round.

    Parameters
    ----------
    subject : str
        Id of the plant, heap or group it is done to.
    verb : str
        As `verb_id` makes it: "winter-cut".
    year : int or None
        Of the season; None where none is written.
    number : int
        Which time in the season, from 1.
    """

    subject: str
    verb: str
    year: int | None = None
    number: int = 1

    @classmethod
    def read(cls, text: str) -> JobId:
        """Take an id apart as written; what is missing or no number counts as left out."""
        parts = [part.strip() for part in text.split(":")]
        subject, verb = [*parts, "", ""][:2]
        year = int(parts[2]) if len(parts) > 2 and parts[2].isdigit() else None
        number = int(parts[3]) if len(parts) > 3 and parts[3].isdigit() else 1
        return cls(subject, verb, year, number)

    def __str__(self) -> str:
        parts = [self.subject, self.verb]
        if self.year is not None:
            parts.append(str(self.year))
            if self.number > 1:
                parts.append(str(self.number))
        return ":".join(parts)

    @property
    def names(self) -> frozenset[str]:
        """Subject and verb, for where it does not matter which was written first."""
        return frozenset((self.subject, self.verb))

    @property
    def either_way(self) -> frozenset[tuple[str, str]]:
        """Subject and verb as pairs, written either way round."""
        return frozenset(((self.subject, self.verb), (self.verb, self.subject)))

    def words(self, things: Collection[str] | None = None) -> str:
        """Readable aloud: "winter cut comice-1"; of what is no thing that stands there "mulch (pear guild)";
        of the whole garden the verb alone, of a job of one's own what it says.

        Parameters
        ----------
        things : collection of str or None
            Ids of all plants and heaps; None where they are not known.
        """
        verb = self.verb.replace("-", " ")
        if verb == OWN_JOB:
            return self.subject.replace("-", " ")
        if self.subject == WHOLE_GARDEN and WHOLE_GARDEN not in (things or ()):
            return verb
        if things is None or self.subject in things or not self.subject:
            return f"{verb} {self.subject}".strip()
        if self.verb in things:  # written the other way round
            return f"{self.subject.replace('-', ' ')} {self.verb}"
        return f"{verb} ({self.subject.replace('-', ' ')})"

    def is_of(self, subject: str, verb: str) -> bool:
        """Whether it is this verb done to this subject, written either way round, in any season."""
        return (subject, verb) in self.either_way

    def done_to(self, verb: str) -> str | None:
        """What a verb is done to, written either way round; None if it is another verb's job."""
        if self.verb == verb:
            return self.subject
        return self.verb if self.subject == verb else None


def verb_id(verb: str) -> str:
    """A verb as it stands in an id: "winter cut" is "winter-cut"."""
    return verb.replace(" ", "-")


def subject_id(group: str) -> str:
    """A group of plants as it stands in an id: "pear guild" is "pear-guild"."""
    return re.sub(r"\s+", "-", group)
