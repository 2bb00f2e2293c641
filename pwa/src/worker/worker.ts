// The worker's entry: hears the page, answers from the book service.
import type { Call } from './protocol'

self.onmessage = ({ data }: MessageEvent<Call>) => {
  self.postMessage({ id: data.id, error: { code: 'todo', words: 'Not built yet. Use ?mock.' } })
}
