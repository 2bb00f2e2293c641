/** Run `act` so that no other tab runs one of this name at the same time, where the browser has locks.
 *  A courtesy that saves requests: correctness rests on storage transactions and on the server's replies. */
export async function alone<T>(name: string, act: () => Promise<T>): Promise<T> {
  const locks = (globalThis.navigator as Partial<Navigator> | undefined)?.locks
  return locks ? ((await locks.request('linkrod-' + name, act)) as T) : act()
}
