"""REWORK.STICKS once more, as a Python add-in function: what the C++ one is measured against."""

import math

import unohelper
from com.sun.star.lang import IllegalArgumentException, XServiceInfo
from slipbarknothing import XPython

MOST = 10_000_000


def whole(name, value, low):
    nearest = round(value)
    if not (abs(value - nearest) <= 1e-9 and low <= nearest <= MOST):
        raise IllegalArgumentException(f"{name} was {value}: give a whole number from {low} to {MOST}", None, 0)
    return nearest


class Sticks(unohelper.Base, XPython, XServiceInfo):
    def __init__(self, context):
        pass

    def sticks(self, grafts, buds_per_scion, buds_per_stick, spare):
        wanted = whole("grafts", grafts, 0)
        scions = whole("buds_per_stick", buds_per_stick, 1) // whole("buds_per_scion", buds_per_scion, 1)
        if scions < 1:
            raise IllegalArgumentException("a stick is too short for one scion", None, 0)
        share = 0.0 if spare is None or spare == "" else spare
        if not 0 <= share <= 2:
            raise IllegalArgumentException(f"spare was {share}: give a fraction from 0 to 2", None, 0)
        return float(math.ceil(wanted * (1 + share) / scions - 1e-9))

    def getImplementationName(self):
        return "slipbark.PythonComponent"

    def supportsService(self, name):
        return name in self.getSupportedServiceNames()

    def getSupportedServiceNames(self):
        return ("slipbark.Python",)


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Sticks, "slipbark.PythonComponent", ("slipbark.Python",))
