"""The one desk of this office, its settings, and its end. Of UNO this module knows the configuration and the desktop."""

import os
import time

import unohelper
from com.sun.star.beans import PropertyValue
from com.sun.star.frame import XTerminateListener

from .desk import Desk
from .service import Service

DEFAULT_ADDRESS = "http://127.0.0.1:7400"
SYNCHRONOUS_SECONDS = 60

_desk = None

# The address named in this session.
_named = None


def desk(context, changed) -> Desk:
    """Opens the desk at the first call, and gives the same one ever after."""
    global _desk
    if _desk is None:
        _desk = Desk(Service(address(context)), language(context), changed, float(os.environ.get("MIXENGINE_SHEET_SECONDS") or 0))
        context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context).addTerminateListener(_AtTheEnd(_desk))
    return _desk


def opened():
    """The desk if any function was called yet."""
    return _desk


def address(context) -> str:
    """The service's address: the one named in this session, else the environment's, else the one set for this user, else the usual one."""
    return _named or os.environ.get("MIXENGINE_SHEET_SERVICE") or setting(context, "/mixengine.Sheet/Service", "Address") or DEFAULT_ADDRESS


def name_address(context, address: str) -> None:
    """From now on this service is asked, in this session and in later ones of this user."""
    global _named
    _named = address
    access = configuration(context, "/mixengine.Sheet/Service", "com.sun.star.configuration.ConfigurationUpdateAccess")
    access.setPropertyValue("Address", address)
    access.commitChanges()
    if _desk is not None:
        _desk.service = Service(address)
        _desk.forget()


def language(context) -> str:
    return setting(context, "/org.openoffice.Setup/L10N", "ooLocale") or "en"


def setting(context, path, name):
    access = configuration(context, path, "com.sun.star.configuration.ConfigurationAccess")
    return access.getByName(name) if access is not None and access.hasByName(name) else None


def configuration(context, path, kind):
    provider = context.ServiceManager.createInstanceWithContext("com.sun.star.configuration.ConfigurationProvider", context)
    argument = PropertyValue()
    argument.Name, argument.Value = "nodepath", path
    return provider.createInstanceWithArguments(kind, (argument,))


def wait_if_asked(result) -> None:
    """Conversions without a user do not wait for results that come later; MIXENGINE_SHEET_WAIT=1 makes each call wait for its own."""
    if os.environ.get("MIXENGINE_SHEET_WAIT") != "1":
        return
    until = time.monotonic() + SYNCHRONOUS_SECONDS
    while not result.is_settled() and time.monotonic() < until:
        time.sleep(0.005)


class _AtTheEnd(unohelper.Base, XTerminateListener):
    """No thread of ours outlives the office."""

    def __init__(self, desk):
        self._desk = desk

    def queryTermination(self, event):
        pass

    def notifyTermination(self, event):
        self._desk.close()

    def disposing(self, event):
        self._desk.close()
