// The page's end of the line to the worker.

import type { AnswerOf, ArgsOf, Do, FromWorker, PageEvent, Trouble, WorkerEvent } from '../worker/protocol'

/** A refused or failed call. `words` can be shown as they are. */
export class CallError extends Error {
  readonly code: string
  constructor(readonly trouble: Trouble) {
    super(trouble.words)
    this.code = trouble.code
  }
}

export interface Link {
  call<D extends Do>(what: D, args: ArgsOf<D>): Promise<AnswerOf<D>>
  tell(event: PageEvent): void
  onEvent(hear: (event: WorkerEvent) => void): void
}

export function workerLink(worker: Worker): Link {
  const open = new Map<number, { give(ok: unknown): void; fail(error: CallError): void }>()
  const hearers: ((event: WorkerEvent) => void)[] = []
  let last = 0

  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    if ('event' in data) {
      for (const hear of hearers) hear(data)
      return
    }
    const call = open.get(data.id)
    open.delete(data.id)
    if ('error' in data) call?.fail(new CallError(data.error))
    else call?.give(data.ok)
  }
  // The worker itself did not load or threw outside a call: nobody will answer what is open.
  worker.onerror = () => {
    const trouble = {
      code: 'worker',
      words: 'The part that keeps the readings stopped. Close Linkrod and open it again.',
    }
    for (const call of open.values()) call.fail(new CallError(trouble))
    open.clear()
  }

  return {
    call: (what, args) =>
      new Promise((give, fail) => {
        const id = ++last
        open.set(id, { give: give as (ok: unknown) => void, fail })
        worker.postMessage({ id, do: what, args })
      }),
    tell: (event) => worker.postMessage(event),
    onEvent: (hear) => hearers.push(hear),
  }
}
