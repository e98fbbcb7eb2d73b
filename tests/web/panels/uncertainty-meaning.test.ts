import { expect, it } from 'vitest'
import { meaningOfUncertainty } from '../../../web/panels/uncertainty-meaning.ts'

it('says what one standard uncertainty means, and what two', () => {
  const sentence = meaningOfUncertainty(0.3, 'kPa')
  expect(sentence).toContain('within ± 0.3 kPa of it with a probability of about 68 %')
  expect(sentence).toContain('± 0.6 kPa, with about 95 %')
})
