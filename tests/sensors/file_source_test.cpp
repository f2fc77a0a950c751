// Sensors of a machine, in a folder of the kernel's shape.
#include "sensors/sensors_helpers.h"
#include "sensors/source.h"

namespace redd::sensors {
namespace {

using thermometer::Failure;

TEST(FileSource, ReadsTheFileAnewEachTime) {
  const Folder sys;
  const auto file = sys.write("bus/w1/devices/28-0a/temperature", "8125\n");
  const auto source = file_source(file);
  EXPECT_EQ(std::get<double>(*source->read()), 8.125);
  sys.write("bus/w1/devices/28-0a/temperature", "85000\n");
  EXPECT_EQ(std::get<Failure>(*source->read()), Failure::power_on_value);
  std::filesystem::remove(file);
  EXPECT_EQ(std::get<Failure>(*source->read()), Failure::no_answer);
  sys.write("bus/w1/devices/28-0a/temperature", "8250\n");
  EXPECT_EQ(std::get<double>(*source->read()), 8.25) << "a sensor that is plugged in again";
}

TEST(FileSource, ReadsOlderDriversAndOtherChips) {
  const Folder sys;
  const auto slave = sys.write("w1_slave", "82 00 4b 46 7f ff 0e 10 5f : crc=5f YES\n82 00 4b 46 7f ff 0e 10 5f t=8125\n");
  EXPECT_EQ(std::get<double>(*file_source(slave)->read()), 8.125);
  EXPECT_EQ(std::get<double>(*file_source(sys.write("temp1_input", "-62\n"))->read()), -0.062) << "no one-wire chip: a value like others";
}

TEST(FileSource, AFolderIsNoSensor) {
  const Folder sys;
  EXPECT_EQ(std::get<Failure>(*file_source(sys / ".")->read()), Failure::no_answer);
}

TEST(FoundSensors, AreListedWithWhatTheyRead) {
  const Folder sys;
  sys.write("bus/w1/devices/28-0a/temperature", "8125\n");
  sys.write("bus/w1/devices/28-0a/w1_slave", "x\n");
  sys.write("bus/w1/devices/28-0b/w1_slave", "82 : crc=5f NO\n82 t=8125\n");
  sys.write("bus/w1/devices/w1_bus_master1/name", "bus\n");
  sys.write("class/hwmon/hwmon0/name", "invented\n");
  sys.write("class/hwmon/hwmon0/temp1_input", "41000\n");
  sys.write("class/hwmon/hwmon0/temp1_label", "Board\n");
  const auto found = found_sensors(sys / ".");
  ASSERT_EQ(found.size(), 3u);
  EXPECT_EQ(found[0].file.filename(), "temperature");
  EXPECT_EQ(std::get<Failure>(found[1].now), Failure::bad_check_sum);
  EXPECT_EQ(found[2].label, "invented Board");
  EXPECT_TRUE(found_sensors(sys / "nowhere").empty());
}

}  // namespace
}  // namespace redd::sensors
