import { type Session, get, post } from "../api/client";
import { field, h } from "../ui/dom";
import { problemList } from "../ui/say";
import { t } from "../words/words";

export const session = (): Promise<Session> => get<Session>("/api/session");

/** Asks for the passphrase of a yard that is open to the network. */
export function passphraseView(then: (now: Session) => void): HTMLElement {
  document.title = t.session.passphrase;
  const wrong = h("div", { role: "alert" });
  const input = h("input", { type: "password", autocomplete: "current-password", required: true });
  const open = async (): Promise<void> => {
    try {
      then(await post<Session>("/api/session", { passphrase: input.value }));
    } catch (error) {
      wrong.replaceChildren(problemList(error));
    }
  };
  return h(
    "main",
    { id: "main", tabindex: "-1", class: "note" },
    h("h1", {}, t.session.headPassphrase),
    h("p", {}, t.session.who),
    h(
      "form",
      { submit: (event) => (event.preventDefault(), void open()) },
      field(t.session.passphrase, input),
      wrong,
      h("button", { class: "big save" }, t.session.open),
    ),
  );
}
