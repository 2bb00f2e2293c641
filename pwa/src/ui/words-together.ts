// The words about several people and one server. Like words.ts, and under its test.

import type { Role } from '../worker/protocol'

export const roles: Record<Role, string> = {
  owner: 'Owner',
  mechanic: 'Mechanic',
  helper: 'Helper',
  shop: 'Shop',
  reader: 'Reader',
  curator: 'Curator',
}
/** What a role may do, as people say it. */
export const roleMeans: Record<Role, string> = {
  owner: 'writes, and says who belongs here',
  mechanic: 'writes everything; may sign',
  helper: 'writes readings and notes',
  shop: 'reads, answers, may sign',
  reader: 'reads only',
  curator: 'publishes cards',
}

export const people = {
  title: 'People',
  of: 'Who belongs here',
  you: 'you',
  signs: 'may sign',
  signsNot: 'does not sign',
  mayAsk: 'May this person sign?',
  maySign: 'May sign',
  mayNotSign: 'Does not sign',
  change: 'Change',
  asWhat: (name: string) => `As what does ${name} belong here?`,
  keepChange: (name: string) => `Keep this for ${name}`,
  since: (day: string) => `since ${day}`,
  remove: 'Remove',
  removeTitle: (name: string) => `Remove ${name} from this engine`,
  removeGone: (name: string) =>
    `${name} gets nothing new from here. What is on that phone already stays readable there.`,
  removeStays: 'Every line that person wrote stays in the book, under the same name.',
  removeAct: (name: string) => `Remove ${name}`,
  keep: 'Leave it as it is',
  leaveTitle: 'Leave this engine',
  invite: 'Invite somebody',
  inviteHow: 'One link for one person. It is used once and runs seven days.',
  inviteAs: 'As what?',
  makeLink: 'Make the link',
  linkIs: 'Send this link, or let the other phone’s camera see the square.',
  linkOnce: (until: string) => `It is shown this once. It runs until ${until}.`,
  copy: 'Copy the link',
  copied: 'Copied.',
  notCopied: 'The browser refused. Mark the link and copy it by hand.',
  qrAlt: 'A square code for the camera of the other phone. It is the link above.',
  open: 'Links not used yet',
  openLine: (role: string, until: string) => `${role}, until ${until}`,
  withdraw: 'Withdraw',
  none: 'No link is open.',
  onlyOwner: 'The owner of this engine says who belongs here.',
  alone: 'Without an account this engine is on this phone only. Join a server first.',
  phones: 'Your phones',
  phonesDetail: 'Each one signed in under your name. One that was lost or sold is removed here.',
  thisOne: 'this phone',
  added: (day: string) => `added ${day}`,
  removed: (day: string) => `removed ${day}`,
  removePhoneTitle: (label: string) => `Remove “${label}”`,
  removePhoneGone: 'It is signed out and sends nothing more under your name.',
  removePhoneStays:
    'What it has sent stays. What it has not sent stays on it and can be saved to a file there.',
  removePhoneAct: (label: string) => `Remove “${label}”`,
  pair: 'Pair another phone',
  everybody: 'Everybody on this server',
  host: 'keeps the server',
  removePersonTitle: (name: string) => `Remove ${name} from this server`,
  removePersonGone: (name: string) => `${name} is signed out everywhere and can’t sign in again.`,
  removePersonStays: 'Every line that person wrote stays, under the same name.',
  journal: 'Who signed in, who was let in',
  engine: 'People of this engine',
  mine: 'Your phones and everybody here',
  held: 'What was set aside',
}

export const invited = {
  title: 'You are invited',
  by: (by: string, shop: string) => `${by} invites you to an engine kept at ${shop}.`,
  shelf: (by: string, shop: string) => `${by} invites you to a shelf of cards kept at ${shop}.`,
  as: (role: string, means: string) => `As ${role.toLowerCase()}: ${means}.`,
  until: (time: string) => `The link runs until ${time} and is used once.`,
  joinAs: (name: string) => `Join as ${name}`,
  joinAsDetail: 'Signed in on this phone',
  other: 'Join under another name',
  join: 'Join',
  joinDetail: 'What is on this phone already comes along',
  looking: 'Looking the invitation up.',
  again: 'Look again',
  have: 'I have an account here: sign in first',
}

export const disagreements = {
  title: 'Two values',
  what: 'Where two people gave different values without having seen each other. Nothing rests on either until a person settles it.',
  none: 'Nobody disagrees. Every value stands once.',
  on: (engine: string) => engine,
  settled: (label: string) => `“${label}” is settled. Both values stay in the log.`,
  link: (n: number) => (n === 1 ? 'One value was given twice' : `${n} values were given twice`),
}

export const held = {
  title: 'Set aside',
  what: 'Lines the server has and the book has not. Whoever keeps the server may admit one, word for word, for a reason; nobody can change it.',
  none: 'Nothing was set aside.',
  heldWord: 'Held',
  refusedWord: 'Not taken',
  from: (author: string, device: string, n: number) => `${author}, phone ${device.slice(0, 4)}, line ${n}`,
  arrived: (time: string) => `arrived ${time}`,
  reason: 'Why it is admitted',
  reasonMissing: 'Say why. The reason stays in the journal.',
  admit: 'Admit it',
  admitted: 'Admitted. It stands in the book now.',
}

export const journal = {
  title: 'Journal',
  what: 'Sign-ins and what was done about people, newest first. Each line is bound to the one before, so none can be taken out unnoticed.',
  more: 'Earlier lines',
  none: 'Nothing is written here yet.',
  line: (what: string, words: string) => (words ? `${what}: ${words}` : what),
}

export const emptied = {
  title: 'This phone was emptied',
  what: 'The browser has thrown away what Linkrod kept here. That happens when a phone runs out of room, after weeks without a visit, or on somebody’s word.',
  had: (time: string) => `The shop last had your lines up to ${time}.`,
  never: 'Nothing had been sent from this phone. If you saved a file, open it under This phone.',
  signIn: 'Sign in and fetch it back',
  signInDetail: 'Everything that was sent comes back',
  file: 'Open a saved file',
  goOn: 'Go on without',
  asking: 'Asking the shop what it last had from this phone.',
  last: 'What the shop last had from this phone as it was',
  lastLine: (n: number, time: string) =>
    n === 1 ? `one line, the last ${time}` : `${n} lines, the last ${time}`,
  lastNone: 'The shop never had a line from it.',
  lost: 'What was written after that and not sent is gone. Write it again from paper or memory, by its hours.',
  done: 'Understood',
}

export const photos = {
  title: 'Photograph',
  take: 'Take or choose a picture',
  another: 'One more picture',
  of: 'Of what?',
  ofHint: 'The label stays with the picture: cylinder 5, inlet pipe, wet at the nut.',
  strips: 'It is drawn anew on this phone: no place and no time of the camera go along.',
  pending: 'The photo is still to be sent.',
  notHere: 'The photo has not arrived yet.',
  group: 'Photos',
  waits: 'Photo, still to be sent',
  refused: 'Photo, not taken',
  some: (n: number) => (n === 1 ? 'one photo to send' : `${n} photos to send`),
  write: 'Photograph',
}

export const wrongClock = (from: string, to: string) =>
  `The clock of that phone was wrong. By the server’s, this was written between ${from} and ${to}.`
