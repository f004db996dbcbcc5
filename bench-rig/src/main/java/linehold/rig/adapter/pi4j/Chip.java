package linehold.rig.adapter.pi4j;

import com.sun.jna.Library;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import linehold.simulator.build.InputException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The chip that Pi4J will use: the first whose label contains "pinctrl". Pi4J neither takes a choice nor tells which it
 * took, so its label is asked of the kernel here.
 *
 * @param label as the kernel gives it, such as {@code pinctrl-bcm2711}
 */
record Chip(String label) {
    private static final Logger LOG = LoggerFactory.getLogger(Chip.class);
    private static final String ONLY = "pinctrl";
    private static final Path DEVICES = Path.of("/dev");

    /** The few calls of the C library that this needs; linux/gpio.h has their numbers. */
    interface Kernel extends Library {
        int open(String path, int flags);

        int ioctl(int descriptor, NativeLong request, byte[] info);

        int close(int descriptor);
    }

    /** GPIO_GET_CHIPINFO_IOCTL: read, 68 bytes, type 0xB4, number 1. */
    private static final NativeLong CHIP_INFO = new NativeLong(0x8044B401L);

    private static final int INFO_BYTES = 68;
    private static final int LABEL_AT = 32;
    private static final int LABEL_BYTES = 32;
    private static final int READ_ONLY_CLOSE_ON_EXEC = 0x80000;

    /**
     * @param wanted what the board file expects in the label
     * @throws InputException where there is no such chip
     */
    static Chip find(String wanted) {
        String label = labels().stream()
                .filter(text -> text.contains(ONLY))
                .findFirst()
                .orElse("");
        if (label.isEmpty() || !label.contains(wanted)) {
            throw new InputException("chip: found " + (label.isEmpty() ? "no such chip" : "'" + label + "'")
                    + ", expected one whose label contains '" + ONLY + "'"
                    + (wanted.equals(ONLY) ? "" : " and '" + wanted + "'") + ", and a user of the group gpio");
        }
        return new Chip(label);
    }

    private static List<String> labels() {
        try (Stream<Path> devices = Files.list(DEVICES)) {
            List<String> names = devices.map(Path::toString)
                    .filter(name -> name.startsWith(DEVICES.resolve("gpiochip").toString()))
                    .sorted()
                    .toList();
            if (names.isEmpty()) {
                return List.of();
            }
            Kernel kernel = Native.load("c", Kernel.class);
            return names.stream().map(name -> label(kernel, name)).toList();
        } catch (IOException e) {
            return List.of();
        }
    }

    private static String label(Kernel kernel, String device) {
        int descriptor = kernel.open(device, READ_ONLY_CLOSE_ON_EXEC);
        if (descriptor < 0) {
            return "";
        }
        byte[] info = new byte[INFO_BYTES];
        int answer = kernel.ioctl(descriptor, CHIP_INFO, info);
        kernel.close(descriptor);
        String label = new String(info, LABEL_AT, LABEL_BYTES, StandardCharsets.US_ASCII);
        return answer < 0 ? "" : label.substring(0, Math.max(0, label.indexOf('\0')));
    }

    /**
     * A killed program must not leave the pump standing (LH-RL-6). The kernel of these boards can be set to keep a line at
     * its last level when its program is gone; with an energised coil the pump would then stand until somebody else drives
     * the line.
     *
     * @param modules where the kernel shows its modules
     * @throws InputException where lines keep their level
     */
    void refuseLinesThatStay(Path modules) {
        String module = label.contains("rp1") ? "pinctrl_rp1" : "pinctrl_bcm2835";
        Path parameter = modules.resolve(module).resolve("parameters/persist_gpio_outputs");
        try {
            if (Files.readString(parameter).startsWith("Y")) {
                throw new InputException(
                        parameter + ": found Y, by which a coil stays energised, and the pump off, when this"
                                + " program is killed; expected dtparam=strict_gpiod in config.txt, or a heartbeat in the board file"
                                + " and its monostable in the wiring");
            }
        } catch (IOException e) {
            LOG.warn(
                    "this kernel does not say what a line does when its program is killed; docs/install.md tells how to see");
        }
    }
}
