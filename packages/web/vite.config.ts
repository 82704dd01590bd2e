import { defineConfig } from 'vite'

export default defineConfig({
  root: import.meta.dirname,
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
