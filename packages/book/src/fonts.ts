import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'

const require = createRequire(import.meta.url)

/** Faces that travel with the book. The type setter sees the machine's own fonts too, so every family used must be among these. */
const FILES = [
  '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  '@expo-google-fonts/source-sans-3/400Regular_Italic/SourceSans3_400Regular_Italic.ttf',
  '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf',
  '@expo-google-fonts/barlow-semi-condensed/400Regular/BarlowSemiCondensed_400Regular.ttf',
  '@expo-google-fonts/barlow-semi-condensed/600SemiBold/BarlowSemiCondensed_600SemiBold.ttf',
  '@expo-google-fonts/noto-sans-math/400Regular/NotoSansMath_400Regular.ttf',
] as const

export const fontFiles = (): readonly Buffer[] => FILES.map((file) => readFileSync(require.resolve(file)))
