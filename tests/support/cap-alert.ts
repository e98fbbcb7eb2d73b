import type { CapAlert } from '../../api/alerts/cap-message.ts'

/** A message about an alert of the small site. */
export const raisedCap: CapAlert = {
  identifier: 'small-quay.a-17.1',
  sender: 'alerts@works.example',
  senderName: 'Small Quay',
  sentEpochMs: Date.UTC(2027, 9, 21, 3, 0, 12, 345),
  timeZone: 'Europe/London',
  status: 'Actual',
  msgType: 'Alert',
  audience: { scope: 'Private', addresses: ['Control room', 'ada@works.example'] },
  references: [],
  note: null,
  event: 'Level 2 passed',
  headline: 'Level 2 passed at PZ-04',
  description: 'PZ-04 reads 41.2 kPa; Level 2 is 40 kPa & rising.',
  action: 'Stop pumping in bay 3 and call the duty engineer.',
  onsetEpochMs: Date.UTC(2027, 9, 21, 2, 55),
  mapping: null,
  web: 'https://works.example/?site=small-quay&alert=a-17',
  area: {
    description: 'PZ-04, bay 3',
    shape: { centre: { latitudeDegrees: 54.321, longitudeDegrees: -1.5 }, radiusMetres: 50 },
  },
  parameters: { point: 'PZ-04', value: 41.2, late: false, depth: null },
}
