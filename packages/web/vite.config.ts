import { defineConfig, type Plugin } from 'vite'
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

export default defineConfig({
  root: import.meta.dirname,
  plugins: [exampleAhead],
  // No inline script and no data address in what is built: the content security policy allows neither.
  build: {
    target: 'es2023',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    cssCodeSplit: false,
    reportCompressedSize: false,
  },
  worker: { format: 'es' },
  server: { fs: { allow: ['../..'] } },
})
