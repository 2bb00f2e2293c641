// The sentences the worker itself has to say. Everything about readings and limits comes from the Go core,
// everything about an entry's way into the ledger from the server.

const some = (n: number) => (n === 1 ? 'one line' : `${n} lines`)

export const words = {
  notSaved: 'Not saved. The phone refused to write. Keep this screen open and write it on paper.',
  nearlyFull: 'The phone is nearly full. Readings still fit; photos wait.',
  noStorage:
    'This browser keeps nothing: its storage could not be opened. In a private window nothing lasts; open Linkrod in an ordinary one.',
  newerStorage:
    'This tab is an older Linkrod than the one that wrote here last. Close all its tabs and open it again.',
  noCore:
    'The part of Linkrod that computes did not start. What is written stays here. Close Linkrod and open it again.',
  coreFell: 'The part of Linkrod that computes stopped and was started again. Try once more.',
  noAnswer: 'No answer. It stays here and tries again.',
  needsSignIn: 'Sign in again to send. Everything written stays on this phone.',
  notHere: 'This engine is not on this phone.',
  noShelf: 'This shelf is not on this phone yet. Open Linkrod once with signal.',
  /** What isn't here yet is called. */
  shelf: { general: 'The general shelf', demo: 'The demo shelf', coming: 'A shelf you joined' },
  noDemo: 'The demo engines are not on this phone yet. Open Linkrod once with signal.',
  notMine:
    'The server has this engine under somebody else. Ask its owner to let you in; your lines stay here.',
  setBack: (shop: string, own: number, others: number) =>
    `${shop} was set back to an older copy. ` +
    (own + others === 0
      ? 'Nothing was lost that this phone has.'
      : `This phone still had ${some(own + others)} it lost${others > 0 ? `, ${others} of them written by others` : ''}, and has handed ${own + others === 1 ? 'it' : 'them'} back.`),
  notPutBack: (shop: string, n: number) =>
    `${shop} would not take back ${some(n)} that others wrote and it lost. ${n === 1 ? 'It stays' : 'They stay'} on this phone and can be read.`,
  revoked:
    'This phone was removed from the account. What it has not sent stays here; save it to a file, or sign in again.',
  oldApp:
    'This Linkrod is older than the server asks for. Writing and sending go on. Start the newer one when nothing is half written.',
  noProgress: 'The server gave the same answer again and again. What waits stays here and is tried later.',
  damaged:
    'What came from the server does not fit together. Nothing of it was taken; it is asked for again later.',
  shelved:
    'Another line stands under this number at the server. This one stays here and can be saved to a file.',
  clock: 'The clock of this phone looks wrong. This line will carry the hours and the time the shop got it.',
  noPicture: 'This file could not be opened as a picture. Take it again, or choose a JPEG or PNG.',
  noRoomForPhoto:
    'The picture was not kept: the phone has no room for it. Readings still fit. Make room and take it again.',
  notInTray: 'This line is not in the tray any more.',
  emptied: (sent: number) =>
    'This phone was emptied by its browser. ' +
    (sent > 0
      ? `The shop last had your lines up to ${new Date(sent).toLocaleString('en-GB', { dateStyle: 'long', timeStyle: 'short' })}.`
      : 'Nothing had been sent from it. If you saved a file, open it under This phone.'),
  copied: 'This phone was copied. It now counts as a new phone; nothing is lost.',
  nothingTaken: 'Nothing was taken: no line was chosen that is not in the book already.',
  fileTaken: (n: number) =>
    n === 0 ? 'Everything in this file was here already.' : `${n} lines were taken from the file.`,
  taken: (n: number) => (n === 1 ? 'One line was taken.' : `${n} lines were taken.`),
}
