import { existsSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { inject } from 'vitest'
import { sampleAddress } from './sample-page.ts'

// Runs before each file of browser tests: the server that `serve-sample-site.ts` began may still make the sample.
const giveUpAt = performance.now() + 900_000
while (!existsSync(inject('sampleServed'))) {
  if (performance.now() > giveUpAt) throw new Error('the sample was not served within 15 minutes')
  await pause(200)
}
sampleAddress()
