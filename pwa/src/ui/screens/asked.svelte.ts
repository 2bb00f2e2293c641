// Asking the server something for a screen: what it said, or the words for why not.
import { CallError } from '../../state/link'

export class Asked<T> {
  value = $state.raw<T | null>(null)
  trouble = $state('')

  constructor(private readonly ask: () => Promise<T>) {
    void this.again()
  }

  async again() {
    await this.act(async () => (this.value = await this.ask()))
  }

  /** Do something and say what stood in the way; true when it was done. */
  async act(what: () => Promise<unknown>): Promise<boolean> {
    this.trouble = ''
    try {
      await what()
      return true
    } catch (error) {
      if (!(error instanceof CallError)) throw error
      this.trouble = error.trouble.words
      return false
    }
  }
}
