import { initials } from "../state";
import { say, sayError } from "../ui/say";
import { t } from "../words/words";
import {
  type Entry,
  type PhotoEntry,
  fateOf,
  keepEntries,
  keepPicture,
  send,
  sendWaitingPictures,
  undoEntries,
} from "./queue";

const undo_shown_ms = 15000; // chosen: time to take a glove off

async function undo(what: string, entries: readonly Entry[], then: () => void): Promise<void> {
  await undoEntries(entries, t.kept.undoReason, initials());
  say(t.kept.undone(what));
  then();
  void send()
    .then((sent) => sent && then())
    .catch(sayError);
}

/** Lets the view that is open show what the server has now. */
const tellStored = (): void => void window.dispatchEvent(new Event("stored"));

/** Sends what waits and tells in the message what became of some of it. */
async function tellFate(
  what: string,
  ids: readonly string[],
  told: { change: (words: string) => void },
  changed: () => void,
  isPicture = false,
): Promise<void> {
  if ((await send()) && isPicture) await sendWaitingPictures();
  const { state, why } = await fateOf(ids);
  if (state === "refused" || state === "unlikely") {
    say(state === "unlikely" ? t.kept.unlikely(what, why) : t.kept.refused(what, why), {
      bad: true,
      action: {
        words: state === "unlikely" ? t.kept.look : t.kept.mend,
        press: () => (location.hash = `#/mend/${ids[0]}`),
      },
    });
    return;
  }
  told.change(state === "stored" ? t.kept.noted(what) : t.kept.waits(what));
  if (state === "stored") changed();
}

/** As keepAndSend, for a photo; one that the server has cannot be taken back. */
export async function keepAndSendPicture(what: string, about: PhotoEntry, picture: Blob): Promise<boolean> {
  try {
    await keepPicture(about, picture);
  } catch {
    say(t.kept.notKept(what), { bad: true });
    return false;
  }
  void tellFate(what, [about.id], say(t.kept.here(what)), () => undefined, true).catch(sayError);
  return true;
}

/** Keeps entries on this phone, says so at once with a way back, and sends them in the background: what the server says
 *  of them is told when it comes. False when the browser could not keep them. `changed` runs when they
 *  reached the server, `undone` after an undo alone. */
export async function keepAndSend(
  what: string,
  entries: readonly Entry[],
  changed: () => void = tellStored,
  undone: () => void = changed,
): Promise<boolean> {
  try {
    await keepEntries(entries);
  } catch {
    say(t.kept.notKept(what), { bad: true });
    return false;
  }
  const back = { words: t.kept.undo, press: () => void undo(what, entries, undone).catch(sayError) };
  const told = say(t.kept.here(what), { action: back, stay_ms: undo_shown_ms });
  const ids = entries.map((one) => one.id);
  void tellFate(what, ids, told, changed).catch(sayError);
  return true;
}
