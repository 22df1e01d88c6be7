"""The two windows of the add-in: one that says something, and one that asks for a line."""

import os

from com.sun.star.awt.MessageBoxButtons import BUTTONS_OK
from com.sun.star.awt.MessageBoxType import MESSAGEBOX


def say(context, frame, text: str) -> None:
    """A message. Where nobody looks, it goes to the file named in MIXENGINE_SHEET_MESSAGES instead."""
    if file := os.environ.get("MIXENGINE_SHEET_MESSAGES"):
        with open(file, "a", encoding="utf-8") as messages:
            messages.write(text + "\n")
        return
    toolkit = context.ServiceManager.createInstanceWithContext("com.sun.star.awt.Toolkit", context)
    toolkit.createMessageBox(frame.ContainerWindow, MESSAGEBOX, BUTTONS_OK, "MixEngine", text).execute()


def ask_line(context, label: str, value: str):
    """One line of text; None where the user wants nothing."""
    create = context.ServiceManager.createInstanceWithContext
    model = create("com.sun.star.awt.UnoControlDialogModel", context)
    model.Width, model.Height, model.Title = 220, 58, "MixEngine"

    def insert(kind, name, x, y, width, height, **properties):
        control = model.createInstance(f"com.sun.star.awt.UnoControl{kind}Model")
        control.PositionX, control.PositionY, control.Width, control.Height = x, y, width, height
        for key, each in properties.items():
            setattr(control, key, each)
        model.insertByName(name, control)

    insert("FixedText", "label", 6, 6, 208, 10, Label=label)
    insert("Edit", "line", 6, 18, 208, 14, Text=value)
    insert("Button", "ok", 110, 38, 50, 14, PushButtonType=1, DefaultButton=True)
    insert("Button", "cancel", 164, 38, 50, 14, PushButtonType=2)
    dialog = create("com.sun.star.awt.UnoControlDialog", context)
    dialog.setModel(model)
    dialog.createPeer(create("com.sun.star.awt.Toolkit", context), None)
    try:
        return dialog.getControl("line").Text.strip() if dialog.execute() == 1 else None
    finally:
        dialog.dispose()
