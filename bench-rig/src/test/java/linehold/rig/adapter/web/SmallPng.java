package linehold.rig.adapter.web;

import java.awt.image.BufferedImage;
import java.awt.image.IndexColorModel;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageTypeSpecifier;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageOutputStream;

/** A picture of a screen as a PNG with at most 256 colours: text and lines on paper need no more. */
final class SmallPng {
    private static final int MOST_COLOURS = 256;

    private SmallPng() {}

    static void write(byte[] png, Path file) throws IOException {
        BufferedImage from = ImageIO.read(new ByteArrayInputStream(png));
        Map<Integer, Integer> count = new HashMap<>();
        for (int y = 0; y < from.getHeight(); y++) {
            for (int x = 0; x < from.getWidth(); x++) {
                count.merge(from.getRGB(x, y), 1, Integer::sum);
            }
        }
        List<Integer> colours = count.entrySet().stream()
                .sorted(Map.Entry.<Integer, Integer>comparingByValue(Comparator.reverseOrder())
                        .thenComparing(Map.Entry.comparingByKey()))
                .limit(MOST_COLOURS)
                .map(Map.Entry::getKey)
                .toList();
        int[] palette = colours.stream().mapToInt(Integer::intValue).toArray();
        Map<Integer, Integer> indexOf = new HashMap<>();
        count.keySet().forEach(colour -> indexOf.put(colour, nearest(palette, colour)));
        BufferedImage to = new BufferedImage(
                from.getWidth(),
                from.getHeight(),
                BufferedImage.TYPE_BYTE_INDEXED,
                new IndexColorModel(8, palette.length, palette, 0, false, -1, java.awt.image.DataBuffer.TYPE_BYTE));
        for (int y = 0; y < from.getHeight(); y++) {
            for (int x = 0; x < from.getWidth(); x++) {
                to.getRaster().setSample(x, y, 0, indexOf.get(from.getRGB(x, y)));
            }
        }
        save(to, file);
    }

    private static int nearest(int[] palette, int colour) {
        int best = 0;
        long least = Long.MAX_VALUE;
        for (int i = 0; i < palette.length; i++) {
            long distance = 0;
            for (int shift = 0; shift <= 16; shift += 8) {
                long difference = (palette[i] >> shift & 0xFF) - (colour >> shift & 0xFF);
                distance += difference * difference;
            }
            if (distance < least) {
                least = distance;
                best = i;
            }
        }
        return best;
    }

    private static void save(BufferedImage image, Path file) throws IOException {
        ImageWriter writer = ImageIO.getImageWriters(ImageTypeSpecifier.createFromRenderedImage(image), "png")
                .next();
        ImageWriteParam smallest = writer.getDefaultWriteParam();
        smallest.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
        smallest.setCompressionQuality(0);
        try (OutputStream bytes = Files.newOutputStream(file);
                ImageOutputStream out = ImageIO.createImageOutputStream(bytes)) {
            writer.setOutput(out);
            writer.write(null, new IIOImage(image, null, null), smallest);
        } finally {
            writer.dispose();
        }
    }
}
