"""What tests of jobs share."""

from tests.samples.job_garden import folder  # noqa: F401 a fixture
