import type { PublishedRow } from '../published-row.ts'

const secret = '12345678901234567890'
const source = 'RFC 6238 appendix B, test vectors for HMAC-SHA-1 with the secret "12345678901234567890"'
const note = 'published with eight digits; apps show the last six'

const row = (id: string, atEpochS: number, code: string, step: number): PublishedRow => ({
  id,
  quantity: 'step of which a one-time code is',
  unit: '30 s since 1970',
  kind: 'published',
  source,
  note,
  inputs: { secret, atEpochS, code: code.slice(-6) },
  expected: step,
  tolerance: 0,
})

/** What signing in must accept, each with where it comes from. */
export const signingInRows: readonly PublishedRow[] = [
  row('SI-01', 59, '94287082', 0x1),
  row('SI-02', 1111111109, '07081804', 0x23523ec),
  row('SI-03', 1111111111, '14050471', 0x23523ed),
  row('SI-04', 1234567890, '89005924', 0x273ef07),
  row('SI-05', 2000000000, '69279037', 0x3f940aa),
  row('SI-06', 20000000000, '65353130', 0x27bc86aa),
  {
    id: 'SI-07',
    quantity: 'plaintext of a secret sealed by AES-256-GCM',
    unit: 'hexadecimal',
    kind: 'published',
    source: 'McGrew and Viega, The Galois/Counter Mode of Operation, appendix B, test case 15',
    inputs: {
      key: 'feffe9928665731c6d6a8f9467308308feffe9928665731c6d6a8f9467308308',
      nonce: 'cafebabefacedbaddecaf888',
      ciphertext:
        '522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662898015ad',
      tag: 'b094dac5d93471bdec1a502270e3cc6c',
    },
    expected:
      'd9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a721c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b391aafd255',
    tolerance: 0,
  },
]
