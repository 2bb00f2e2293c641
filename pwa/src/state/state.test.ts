// The page's side: the line to the worker, a form, and what an emptied phone says.
import { beforeEach, describe, expect, it, vi } from 'vitest'
import type { AnswerOf, ArgsOf, Badge, Do, FromWorker, WorkerEvent } from '../worker/protocol'
import { App } from './app.svelte'
import { Form } from './form.svelte'
import { CallError, type Link, workerLink } from './link'

/** A worker that answers when told to. */
class StubWorker {
  onmessage: (event: { data: FromWorker }) => void = () => undefined
  onerror: () => void = () => undefined
  readonly asked: { id: number; do: Do; args: unknown }[] = []
  postMessage(message: { id: number; do: Do; args: unknown }) {
    this.asked.push(message)
  }
  say(data: FromWorker) {
    this.onmessage({ data })
  }
}
const lineTo = (stub: StubWorker) => workerLink(stub as unknown as Worker)

describe('the line to the worker', () => {
  it('gives each answer to its own question, in any order', async () => {
    const stub = new StubWorker()
    const link = lineTo(stub)
    const answers = Promise.all([
      link.call('tail', { last: '1', digits: '2' }),
      link.call('tail', { last: '3', digits: '4' }),
    ])
    const [one, two] = stub.asked
    stub.say({ id: two?.id ?? 0, ok: { options: ['second'] } })
    stub.say({ id: one?.id ?? 0, ok: { options: ['first'] } })
    expect(await answers).toEqual([{ options: ['first'] }, { options: ['second'] }])
  })
  it('passes on what went wrong, word for word', async () => {
    const stub = new StubWorker()
    const call = lineTo(stub).call('send', {})
    stub.say({ id: stub.asked[0]?.id ?? 0, error: { code: 'x', words: 'Said so.', field: 'name' } })
    await expect(call).rejects.toMatchObject({ trouble: { code: 'x', words: 'Said so.', field: 'name' } })
  })
  it('leaves nobody waiting when the worker dies', async () => {
    const stub = new StubWorker()
    const call = lineTo(stub).call('send', {})
    stub.onerror()
    await expect(call).rejects.toBeInstanceOf(CallError)
  })
})

const badge: Badge = {
  waiting: 0,
  since: 0,
  sending: null,
  lastTry: 0,
  lastSent: 0,
  stuck: '',
  tray: 0,
  unjoined: 0,
  demo: 0,
}
const engine = {
  book: 'b',
  demo: false,
  name: 'one',
  named: true,
  model: '',
  state: '',
  chip: null,
  waiting: 0,
  opened: 0,
}

type Answers = { [D in Do]?: (args: ArgsOf<D>) => AnswerOf<D> | Promise<AnswerOf<D>> }

class TestLink implements Link {
  hear: (event: WorkerEvent) => void = () => undefined
  readonly asked: [Do, unknown][] = []
  constructor(readonly answers: Answers) {}
  async call<D extends Do>(what: D, args: ArgsOf<D>): Promise<AnswerOf<D>> {
    this.asked.push([what, args])
    const answer = this.answers[what]
    if (!answer) throw new CallError({ code: 'none', words: `No answer to ${what} here.` })
    return answer(args) as AnswerOf<D>
  }
  tell = () => undefined
  onEvent(hear: (event: WorkerEvent) => void) {
    this.hear = hear
  }
}

const phone = (answers: Answers, engines = [engine]) => {
  const link = new TestLink({
    start: () => ({ prefs: {} as never, engines, session: null, needsSignIn: false, badge, notice: null }),
    engines: () => engines,
    keep: () => null,
    kept: () => null,
    draft: () => ({ echo: 'so', foretold: '', asks: [], body: {} }),
    ...answers,
  })
  return { link, app: new App(link) }
}

beforeEach(() => localStorage.clear())

describe('a form', () => {
  const form = (app: App) => new Form(app, app.book('b'), 'oil')

  it('keeps what is typed on the phone and puts it away once saved', async () => {
    const { link, app } = phone({ save: () => ({ key: 'd:1', words: 'Fifteen.', view: null }) })
    const oil = form(app)
    await oil.start()
    await oil.set({ level: '15' })
    expect(link.asked).toContainEqual(['keep', { form: 'b:oil', draft: { level: '15' } }])
    expect(oil.checked.echo).toBe('so')
    expect(await oil.save()).toMatchObject({ words: 'Fifteen.' })
    expect(link.asked.at(-1)).toEqual(['keep', { form: 'b:oil', draft: null }])
    expect(oil.dirty).toBe(false)
  })
  it('not saved stays as it was typed, with the reason beside it', async () => {
    const { app } = phone({
      save: () => Promise.reject(new CallError({ code: 'not-saved', words: 'Not saved.' })),
    })
    const oil = form(app)
    await oil.start()
    await oil.set({ level: '15' })
    expect(await oil.save()).toBeNull()
    expect(oil.trouble).toEqual({ code: 'not-saved', words: 'Not saved.' })
    expect(oil.draft).toEqual({ level: '15' })
  })
  it('comes back half filled after a reload', async () => {
    const { app } = phone({ kept: () => ({ level: '14' }) })
    const oil = form(app)
    expect(await oil.start({ level: '' })).toBe(true)
    expect(oil.draft).toEqual({ level: '14' })
  })
  it('shows the answer to the last thing typed, whatever comes back later', async () => {
    const late: ((echo: string) => void)[] = []
    const { app } = phone({
      draft: () => new Promise((done) => late.push((echo) => done({ echo, foretold: '', asks: [] }))),
    })
    const oil = form(app)
    const first = oil.set({ level: '1' })
    const second = oil.set({ level: '15' })
    late[1]?.('fifteen')
    late[0]?.('one')
    await Promise.all([first, second])
    expect(oil.checked.echo).toBe('fifteen')
  })
  it('holds a new version back while it is half written', async () => {
    const { app } = phone({ save: () => ({ key: 'd:1', words: '', view: null }) })
    app.update.ready = true
    const oil = form(app)
    await oil.set({ level: '15' })
    expect(app.mayUpdate).toBe(false)
    await oil.save()
    expect(app.mayUpdate).toBe(true)
  })
})

describe('a phone emptied by its browser', () => {
  it('says so once, with how far the shop has its lines', async () => {
    const sent = Date.parse('2025-11-09T18:40:00')
    const before = phone({})
    before.link.answers.start = () => ({
      prefs: {} as never,
      engines: [engine],
      session: null,
      needsSignIn: false,
      notice: null,
      badge: { ...badge, lastSent: sent },
    })
    await before.app.start()
    expect(before.app.notice).toBeNull()
    const after = phone({}, []).app
    await after.start()
    expect(after.notice?.words).toContain('up to 9 November 2025 at 18:40')
    const again = phone({}, []).app
    await again.start()
    expect(again.notice).toBeNull()
  })
  it('is not mistaken for one that somebody signed out of', async () => {
    const { app, link } = phone({})
    await app.start()
    link.answers.engines = () => []
    link.hear({ event: 'session', session: null, needsSignIn: false })
    await vi.waitFor(() => expect(app.engines).toEqual([]))
    expect(app.notice).toBeNull()
  })
})
