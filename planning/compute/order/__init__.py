"""The order of the group photographs, exact or with an honest bound."""

from planning.compute.order.values import Photograph, Problem

__all__ = ["Photograph", "Problem"]
