// What App gives every screen.
import type { App } from '../../state/app.svelte'
import type { Book } from '../../state/book.svelte'
import type { View } from '../../worker/view'

export interface ScreenProps extends Record<string, unknown> {
  app: App
  /** The named parts of the address. */
  at: Record<string, string>
}

export interface EngineProps extends ScreenProps {
  book: Book
  view: View
  /** The address of this engine's home. */
  base: string
}
