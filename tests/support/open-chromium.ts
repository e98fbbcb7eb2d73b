import { type Browser, chromium } from 'playwright-core'

const softwareGl = ['--use-angle=gl-egl', '--ignore-gpu-blocklist']
const noGl = ['--disable-gpu', '--disable-software-rasterizer', '--disable-3d-apis']

/** Opens the Chromium under test with software GL, or none, and no traffic of its own. */
export function openChromium({ withGl = true } = {}): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      ...(withGl ? softwareGl : noGl),
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
    ],
  })
}
