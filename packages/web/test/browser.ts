import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'

const DEBIAN = '/usr/bin/chromium'

/** Debian's Chromium where it is installed, else the one that comes by npm. */
export async function launched(): Promise<Browser> {
  const executablePath = existsSync(DEBIAN) ? DEBIAN : await (await import('@sparticuz/chromium')).default.executablePath()
  return chromium.launch({
    executablePath,
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  })
}
