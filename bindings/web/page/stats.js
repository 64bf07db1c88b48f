// SPDX-License-Identifier: MIT
// Percentiles, as the reports reckon them: linear between order statistics.
const stats = {
  percentile(list, p) {
    const sorted = Array.from(list).sort((a, b) => a - b);
    if (sorted.length === 0) return NaN;
    const at = (sorted.length - 1) * p / 100, low = Math.floor(at), high = Math.min(low + 1, sorted.length - 1);
    if (sorted[low] === sorted[high]) return sorted[low];
    return sorted[low] + (at - low) * (sorted[high] - sorted[low]);
  },
  mean(list) {
    return list.reduce((a, b) => a + b, 0) / list.length;
  },
};
