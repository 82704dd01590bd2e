import { join } from 'node:path'
import { defineConfig, type Plugin } from 'vite'
import { KEEPER, writeKept } from './kept.ts'
import { EXAMPLE } from './src/route.ts'

/** The page names the parts of the example itself: on a slow line a first visit asks for them with everything else, not after it. */
const exampleAhead: Plugin = {
  name: 'example-ahead',
  transformIndexHtml: {
    order: 'post',
    handler: (_html, { bundle }) =>
      Object.values(bundle ?? {}).flatMap((part) =>
        part.type === 'chunk' && part.name === EXAMPLE
          ? [
              {
                tag: 'link',
                attrs: { rel: 'modulepreload', crossorigin: true, href: `/${part.fileName}` },
                injectTo: 'head' as const,
              },
            ]
          : [],
      ),
  },
}

/** When everything is written, its list goes to the keeper. */
const keptWhole: Plugin = { name: 'kept-whole', apply: 'build', closeBundle: () => writeKept(join(import.meta.dirname, 'dist')) }

export default defineConfig({
  root: import.meta.dirname,
  plugins: [exampleAhead, keptWhole],
  // No inline script and no data address in what is built: the content security policy allows neither.
  build: {
    target: 'es2023',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    cssCodeSplit: false,
    reportCompressedSize: false,
    rolldownOptions: {
      input: { index: join(import.meta.dirname, 'index.html'), keeper: join(import.meta.dirname, 'src/kept/keeper.ts') },
      // The keeper's address is the same in every build: the browser asks there for the next one.
      output: { entryFileNames: ({ name }) => (name === 'keeper' ? KEEPER : 'assets/[name]-[hash].js') },
    },
  },
  worker: { format: 'es' },
  server: { fs: { allow: ['../..'] } },
})
