// Tests are read by somebody who reads English and measures in °C, unless a test says otherwise.
Object.defineProperty(navigator, "language", { value: "en-GB", configurable: true });
