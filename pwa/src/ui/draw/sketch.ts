// The small picture beside a sum in the list: the same drawing, with nothing typed, without its words.
import { workDrawing } from './work'

export const sketch = (name: string): string =>
  workDrawing(name, {})
    .replace(/<text[^>]*>[^<]*<\/text>/g, '')
    .replace('class="work"', 'width="52" height="38" class="sketch"')
    .replace('viewBox="0 0 360 200"', 'viewBox="40 0 280 200"')
