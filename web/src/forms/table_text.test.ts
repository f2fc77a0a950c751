import { expect, it } from "vitest";
import { textOfBytes } from "./table_text";

it("reads what spreadsheets write", () => {
  expect(textOfBytes(new TextEncoder().encode("fecha;amoníaco"))).toBe("fecha;amoníaco");
  expect(textOfBytes(new Uint8Array([0xef, 0xbb, 0xbf, 0x70, 0x48]))).toBe("pH");
  expect(textOfBytes(new Uint8Array([0xff, 0xfe, 0x70, 0x00, 0x48, 0x00]))).toBe("pH");
  expect(textOfBytes(new Uint8Array([0xb0, 0x43]))).toBe("°C");
});
