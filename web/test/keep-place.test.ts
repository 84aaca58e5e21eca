import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { handsOff } from "../src/ui/keep-place";

describe("what is under a pressed finger stays there", () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  /** Whether a view may be drawn anew, looked at once all that is due has happened. */
  async function free(hands: () => Promise<void>): Promise<boolean> {
    let is_free = false;
    void hands().then(() => (is_free = true));
    await vi.advanceTimersByTimeAsync(0);
    return is_free;
  }

  it("until the press has become a click", async () => {
    const root = new EventTarget();
    const hands = handsOff(root);
    expect(await free(hands)).toBe(true);
    root.dispatchEvent(new Event("pointerdown"));
    expect(await free(hands)).toBe(false);
    root.dispatchEvent(new Event("pointerup"));
    expect(await free(hands)).toBe(false);
    root.dispatchEvent(new Event("click"));
    expect(await free(hands)).toBe(true);
  });

  it("for a moment only where no click follows, and never for good", async () => {
    const root = new EventTarget();
    const hands = handsOff(root);
    root.dispatchEvent(new Event("pointerdown"));
    root.dispatchEvent(new Event("pointercancel"));
    await vi.advanceTimersByTimeAsync(500);
    expect(await free(hands)).toBe(true);
    root.dispatchEvent(new Event("pointerdown")); // and let go outside of the window
    await vi.advanceTimersByTimeAsync(6000);
    expect(await free(hands)).toBe(true);
  });

  it("and a second press holds on when the first one's moment ends", async () => {
    const root = new EventTarget();
    const hands = handsOff(root);
    root.dispatchEvent(new Event("pointerdown"));
    root.dispatchEvent(new Event("pointerup"));
    await vi.advanceTimersByTimeAsync(300);
    root.dispatchEvent(new Event("pointerdown"));
    await vi.advanceTimersByTimeAsync(300);
    expect(await free(hands)).toBe(false);
  });
});
