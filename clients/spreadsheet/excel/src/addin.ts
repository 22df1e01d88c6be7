// Where the shared runtime begins: functions by their names in the metadata, and the commands of the ribbon.

import { desk, difference, glazeOf, hex, lab, matchOf, rampOf, words } from "./functions";
import { paintSelection } from "./painting";

CustomFunctions.associate({ HEX: hex, LAB: lab, RAMP: rampOf, MATCH: matchOf, GLAZE: glazeOf, DIFFERENCE: difference, WORDS: words } as unknown as Record<string, Function>);

async function done(event: Office.AddinCommands.Event, what: () => Promise<void>): Promise<void> {
  try {
    await what();
  } finally {
    event.completed();
  }
}

async function askAgain(): Promise<void> {
  desk.forget();
  await Excel.run(async (context) => {
    context.workbook.application.calculate(Excel.CalculationType.fullRebuild);
    await context.sync();
  });
}

Office.actions.associate("paint", (event: Office.AddinCommands.Event) => done(event, paintSelection));
Office.actions.associate("again", (event: Office.AddinCommands.Event) => done(event, askAgain));
