/** Share of a channel of sRGB made linear. Source: W3C Web Content Accessibility Guidelines 2.2, "relative luminance" (0.04045 since May 2021). */
function linear(channel: number): number {
  const share = channel / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
}

/** Relative luminance of "#rrggbb": 0.2126 R + 0.7152 G + 0.0722 B (as above). */
function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) =>
    linear(Number.parseInt(colour.slice(at, at + 2), 16)),
  );
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Contrast ratio of two colours, 1 to 21: (L1 + 0.05) / (L2 + 0.05), the lighter above (WCAG 2.2, "contrast ratio"). */
export function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((one, other) => other - one);
  return (light + 0.05) / (dark + 0.05);
}

/** Least ratios: of text (WCAG 2.2, 1.4.3), of marks and lines that carry a meaning (1.4.11). */
export const TEXT_CONTRAST = 4.5;
export const MARK_CONTRAST = 3;
