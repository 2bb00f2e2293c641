// People as the server knows them: who belongs to a book, open invitations, this person's phones, and what the host
// sees. Nothing of it is kept on the phone; without an answer it says so.

import type { Account } from './account'
import type {
  Aside,
  Device,
  InvitedTo,
  Invitation,
  JournalLine,
  LastFrom,
  Member,
  NewInvitation,
  Person,
} from './protocol'
import { textOf, type Entry } from './entry'

export class People {
  constructor(
    private readonly account: Account,
    /** How entries read aloud; the core says it. */
    private readonly say: (entries: (Entry | null)[]) => Promise<string[]>,
  ) {}

  async members(book: string): Promise<Member[]> {
    return (await this.account.call<{ members: Member[] }>('GET', `books/${book}/members`)).members
  }
  async change(book: string, account: string, change: { role?: string; signs?: boolean }) {
    await this.account.call('PATCH', `books/${book}/members/${account}`, change)
  }
  async remove(book: string, account: string) {
    await this.account.call('DELETE', `books/${book}/members/${account}`)
  }

  async invitations(book: string): Promise<Invitation[]> {
    return (await this.account.call<{ invitations: Invitation[] }>('GET', `books/${book}/invitations`))
      .invitations
  }
  async invite(book: string, role: string, signs: boolean): Promise<NewInvitation> {
    const { link, expires_ms, qr_svg, only_here } = await this.account.call<{
      link: string
      expires_ms: number
      qr_svg: string
      only_here?: string
    }>('POST', `books/${book}/invitations`, { role, signs })
    return { link, expires: expires_ms, qr: qr_svg, onlyHere: only_here ?? '' }
  }
  async withdraw(book: string, id: string) {
    await this.account.call('DELETE', `books/${book}/invitations/${id}`)
  }
  look(secret: string): Promise<InvitedTo> {
    return this.account.open<InvitedTo>('invitations/look', { secret })
  }
  /** Join as who is signed in. */
  async claim(secret: string): Promise<{ book: string }> {
    const { book } = await this.account.call<{ book: string }>('POST', 'invitations/claim', { secret })
    return { book }
  }

  devices(): Promise<{ devices: Device[]; this: string }> {
    return this.account.call('GET', 'devices')
  }
  async removeDevice(device: string) {
    await this.account.call('DELETE', 'devices/' + device)
  }
  async lastFrom(device: string): Promise<LastFrom[]> {
    return (await this.account.call<{ books: LastFrom[] }>('GET', `devices/${device}/last`)).books
  }

  // The host's.
  async people(): Promise<Person[]> {
    return (await this.account.call<{ people: Person[] }>('GET', 'people')).people
  }
  async removePerson(account: string) {
    await this.account.call('DELETE', 'people/' + account)
  }
  async journal(before: number): Promise<JournalLine[]> {
    const path = before > 0 ? `journal?before=${before}` : 'journal'
    return (await this.account.call<{ lines: JournalLine[] }>('GET', path)).lines
  }
  async aside(book: string): Promise<Aside[]> {
    const { aside } = await this.account.call<{ aside: (Omit<Aside, 'text'> & { raw: string })[] }>(
      'GET',
      `books/${book}/aside`,
    )
    const sent = aside.map(({ raw }) => sentAs(raw))
    const said = await this.say(sent.map((s) => s.entry))
    return aside.map(({ raw: _raw, ...a }, i) => ({ ...a, text: said[i] || (sent[i]?.text ?? '') }))
  }
  async admit(book: string, { device, n, hash }: Pick<Aside, 'device' | 'n' | 'hash'>, reason: string) {
    await this.account.call('POST', `books/${book}/aside/${device}/${n}/admit`, { reason, hash })
  }
}

/** What was sent, as an entry where it can be read as one, and as text. */
function sentAs(raw: string): { entry: Entry | null; text: string } {
  const text = new TextDecoder().decode(Uint8Array.from(atob(raw), (c) => c.charCodeAt(0)))
  try {
    const entry = JSON.parse(text) as Entry
    return { entry, text: textOf(entry) }
  } catch {
    return { entry: null, text }
  }
}
