// Gathers the questions of many cells and sends them together. Excel shows #BUSY! until a cell's promise is kept.

import { Fault, type Question } from "./questions";

/** The service's own limit for one request. */
export const MOST = 200;
/** Searches take long: fewer of them at once. */
export const MOST_SEARCHES = 100;
const SEARCHES = ["match", "ramp"];
const GATHER_MS = 30;
const SECONDS = { quick: 20, search: 75 };
const RETRY_MS = [2000, 4000, 8000, 15000, 30000];
const MOST_KEPT = 50_000;

export type Answer = Record<string, any>;
interface Waiting { readonly question: Question; readonly key: string; readonly resolve: (answer: Answer) => void; readonly reject: (fault: Error) => void }

/** Nothing that answers is there now. */
class Unreachable extends Error {}

class Lane {
  private queue: Waiting[] = [];
  private timer: unknown = null;
  private sending = false;

  constructor(private readonly address: () => string, private readonly most: number, private readonly seconds: number, private readonly forget: (key: string) => void) {}

  add(waiting: Waiting): void {
    this.queue.push(waiting);
    this.later();
  }

  private later(): void {
    if (this.sending || this.timer !== null || this.queue.length === 0) return;
    this.timer = setTimeout(() => { this.timer = null; void this.send(); }, this.queue.length >= this.most ? 0 : GATHER_MS);
  }

  private async send(): Promise<void> {
    this.sending = true;
    const batch = this.queue.splice(0, this.most);
    try {
      const answers = await this.ask(batch.map((each) => each.question));
      batch.forEach((each, i) => {
        const answer = answers[i];
        if (answer?.error) each.reject(new Fault(wordsOf(answer.error)));
        else if (answer?.[each.question.kind]) each.resolve(answer[each.question.kind]);
        else each.reject(new Fault(`${this.address()} does not answer sheets.`));
      });
    } catch (fault) {
      // What is not known is not kept: the cell's own retry, or the next recalculation, asks again.
      batch.forEach((each) => { this.forget(each.key); each.reject(fault as Error); });
    } finally {
      this.sending = false;
      this.later();
    }
  }

  private async ask(questions: Question[]): Promise<Answer[]> {
    const items = questions.map((question, i) => ({ key: String(i), [question.kind]: question.body }));
    const stop = new AbortController();
    const clock = setTimeout(() => stop.abort(), this.seconds * 1000);
    try {
      const response = await fetch(`${this.address()}/v1/batch`, {
        method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify({ items }), signal: stop.signal, redirect: "error",
      });
      const answer = await response.json();
      if (response.ok && Array.isArray(answer?.answers) && answer.answers.length === questions.length) return answer.answers;
      if (response.ok) throw new Fault(`${this.address()} does not answer sheets.`);
      if (response.status >= 500) throw new Unreachable(wordsOf(answer));
      throw new Fault(wordsOf(answer));
    } catch (fault) {
      if (fault instanceof Fault) throw fault;
      throw new Unreachable(stop.signal.aborted ? `silent for ${this.seconds} s` : String((fault as Error).message ?? fault));
    } finally {
      clearTimeout(clock);
    }
  }
}

/** All questions of this workbook, and what is known of their answers. */
export class Desk {
  private readonly known = new Map<string, Promise<Answer>>();
  private readonly quick: Lane;
  private readonly search: Lane;

  constructor(readonly address: () => string) {
    const forget = (key: string) => this.known.delete(key);
    this.quick = new Lane(address, MOST, SECONDS.quick, forget);
    this.search = new Lane(address, MOST_SEARCHES, SECONDS.search, forget);
  }

  /** The answer to a question; equal questions share it. */
  ask(question: Question): Promise<Answer> {
    const key = JSON.stringify([question.kind, question.body]);
    const before = this.known.get(key);
    if (before) return before;
    const answer = new Promise<Answer>((resolve, reject) => (SEARCHES.includes(question.kind) ? this.search : this.quick).add({ question, key, resolve, reject }));
    answer.catch(() => undefined);
    this.known.set(key, answer);
    if (this.known.size > MOST_KEPT) this.known.delete(this.known.keys().next().value!);
    return answer;
  }

  /** Everything is asked anew: the shelf may have changed. */
  forget(): void {
    this.known.clear();
  }

  /**
   * Shows what a call gives: first what is wrong while the service is not there, then, when it is back, the answer.
   * Ends when `cancelled` says so.
   */
  async show<T>(call: () => Promise<T>, show: (value: T | Error) => void, cancelled: () => boolean): Promise<void> {
    for (let failures = 0; !cancelled(); failures++) {
      try {
        show(await call());
        return;
      } catch (fault) {
        if (!(fault instanceof Unreachable)) {
          show(fault as Error);
          return;
        }
        show(new Fault(`No answer from ${this.address()} (${fault.message}). Start it with: mixengine serve. It is asked again by itself.`));
        await new Promise((again) => setTimeout(again, RETRY_MS[Math.min(failures, RETRY_MS.length - 1)]));
      }
    }
  }
}

const wordsOf = (error: any): string => {
  const violations = (error?.details ?? []).flatMap((detail: any) => detail.fieldViolations ?? []).map((violation: any) => violation.description);
  return violations.join(" ") || error?.message || "?";
};
