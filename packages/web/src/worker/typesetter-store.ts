/** What the typesetter is made of, kept on the device under its address: names of built files hold a hash of their content, so what is there is right. */
const STORE = 'plugstead.typesetter'

/** It is not on this device and cannot be brought. */
export class Absent extends Error {
  override readonly name = 'Absent'
}

export async function kept(address: string): Promise<Response> {
  const store = await opened()
  const had = await store?.match(address)
  if (had !== undefined) return had
  let came: Response
  try {
    came = await fetch(address)
    if (!came.ok) throw new Absent(`${address}: ${came.status}`)
    // A device that is full or will not keep it sets the book all the same.
    await store?.put(address, came.clone()).catch(() => {})
  } catch (thrown) {
    throw thrown instanceof Absent ? thrown : new Absent(String(thrown))
  }
  return came
}

/** Takes away what an earlier build of the program left. */
export async function keepOnly(addresses: readonly string[]): Promise<void> {
  const store = await opened()
  if (store === null) return
  const wanted = new Set(addresses.map((address) => new URL(address, self.location.href).href))
  for (const request of await store.keys()) if (!wanted.has(request.url)) await store.delete(request)
}

async function opened(): Promise<Cache | null> {
  try {
    return await caches.open(STORE)
  } catch {
    return null
  }
}
