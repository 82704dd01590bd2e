import type { Problem } from '@plugstead/engine/kernel'
import type { WeatherFileAsked } from '../worker/air/types.ts'

const LARGEST_BYTES = 96 * 1024 * 1024

/** Text of a weather file, unpacked where it is packed: UTF-8, else one byte a letter as old programs wrote. In the words of the terminal where it is none. */
export async function weatherTextOf(file: File): Promise<WeatherFileAsked | { readonly problems: readonly Problem[] }> {
  const bytes = new Uint8Array(await file.arrayBuffer())
  const packed = bytes[0] === 0x1f && bytes[1] === 0x8b
  const plain = packed ? await unpacked(bytes) : bytes
  if (plain === null)
    return refused(file, {
      found: 'a packed file that is cut off or damaged',
      mend: 'Fetch it again, or unpack it with another program and give that.',
    })
  if (plain.length > LARGEST_BYTES)
    return refused(file, {
      found: `over ${LARGEST_BYTES / 1024 / 1024} MB when unpacked`,
      mend: 'Cut it into parts, and give them one at a time.',
    })
  return { name: file.name, text: lettersOf(plain) }
}

const refused = (file: File, of: Pick<Problem, 'found' | 'mend'>): { readonly problems: readonly Problem[] } => ({
  problems: [{ code: 'file/packed', file: file.name, wanted: 'a whole file packed with gzip', ...of }],
})

function lettersOf(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return new TextDecoder('latin1').decode(bytes)
  }
}

async function unpacked(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array | null> {
  try {
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))
    return new Uint8Array(await new Response(stream).arrayBuffer())
  } catch {
    return null
  }
}
