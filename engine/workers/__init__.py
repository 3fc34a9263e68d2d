"""Worker processes: files from outside are looked at on all cores, within limits."""

from engine.workers.limits import Limits
from engine.workers.messages import Reason
from engine.workers.pool import Asked, Job, Pool, usable_cores

__all__ = ["Asked", "Job", "Limits", "Pool", "Reason", "usable_cores"]
