"""The commands of the menu and the toolbar, as Calc dispatches them: vnd.mixengine:NAME, and after a question mark what a caller gives along."""

import unohelper
from com.sun.star.frame import XDispatch, XDispatchProvider
from com.sun.star.lang import XInitialization, XServiceInfo

from mixsheet import painting, shelves
from mixsheet.dialogs import say

COMMANDS = {
    "paint": painting.paint_selection,
    "again": shelves.ask_again,
    "import": shelves.import_table,
    "shelf": shelves.write_shelf,
    "service": shelves.name_service,
}


class Commands(unohelper.Base, XInitialization, XDispatchProvider, XDispatch, XServiceInfo):
    def __init__(self, context):
        self._context = context
        self._frame = None

    def initialize(self, arguments):
        self._frame = arguments[0] if arguments else None

    def queryDispatch(self, url, target, flags):
        return self if url.Protocol == "vnd.mixengine:" and url.Path.split("?")[0] in COMMANDS else None

    def queryDispatches(self, requests):
        return tuple(self.queryDispatch(request.FeatureURL, request.FrameName, request.SearchFlags) for request in requests)

    def dispatch(self, url, arguments):
        name, _, given = url.Complete.removeprefix("vnd.mixengine:").partition("?")
        try:
            COMMANDS[name](self._context, self._frame.Controller, given)
        except shelves.CannotBeDone as fault:
            say(self._context, self._frame, str(fault))

    def addStatusListener(self, listener, url):
        pass

    def removeStatusListener(self, listener, url):
        pass

    def getImplementationName(self):
        return "mixengine.Commands"

    def supportsService(self, name):
        return name in self.getSupportedServiceNames()

    def getSupportedServiceNames(self):
        return ("com.sun.star.frame.ProtocolHandler",)


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Commands, "mixengine.Commands", ("com.sun.star.frame.ProtocolHandler",))
