import type { Trouble } from './protocol'

/** A failure a person can be told about: `words` are shown as they are, at the place it happened. */
export class Failure extends Error {
  override readonly name = 'Failure'
  /** The form field it is about; '' = none. */
  readonly field: string = ''
  constructor(
    readonly code: string,
    readonly words: string,
    options?: ErrorOptions,
  ) {
    super(words, options)
  }

  static of(error: unknown): Trouble {
    if (error instanceof Failure)
      return { code: error.code, words: error.words, ...(error.field && { field: error.field }) }
    // Not foreseen: say what it was rather than nothing.
    return { code: 'unforeseen', words: `Something went wrong that was not foreseen: ${String(error)}` }
  }
}
