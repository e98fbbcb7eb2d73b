import { expect, it } from 'vitest'
import { channelsCaution } from '../../../../web/settings/wall/channels-caution.ts'

it('counts the channels without current data, and claims nothing where nothing was judged', () => {
  expect(channelsCaution({ late: 14, series: 724 })).toBe(
    'No alert does not mean no movement: 14 of 724 channels have no current data.',
  )
  expect(channelsCaution({ late: 1, series: 2 })).toContain('1 of 2 channels has no')
  expect(channelsCaution(null)).toContain('not known yet')
  expect(channelsCaution({ late: 0, series: 0 })).toContain('no channel is in use')
})
