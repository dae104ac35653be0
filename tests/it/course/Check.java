// Reads the zip archive that its one argument names from front to back, as a course system does
// with an upload that it does not keep, and prints name, size and CRC-32 of each file.

import java.io.FileInputStream;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;

public class Check {
    public static void main(String[] arguments) throws Exception {
        try (ZipInputStream zip = new ZipInputStream(new FileInputStream(arguments[0]))) {
            for (ZipEntry entry; (entry = zip.getNextEntry()) != null; ) {
                byte[] content = zip.readAllBytes();
                CRC32 crc = new CRC32();
                crc.update(content);
                if (entry.getCrc() != crc.getValue()) throw new Exception("CRC of " + entry.getName());
                System.out.println(entry.getName() + " " + content.length + " " + crc.getValue());
            }
        }
    }
}
