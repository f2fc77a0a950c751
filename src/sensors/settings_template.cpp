// The settings file to start from. Like the settings' names it is the same in every language.
#include "sensors/settings.h"

namespace redd::sensors {

std::string settings_template() {
  return R"(# Redd's thermometer. Keep this file to yourself: chmod 600. Lines that begin with # do nothing.
# One source. Either a file of the kernel (redd thermometer --find lists them):
#file = /sys/bus/w1/devices/28-000000000000/temperature
# or a topic of an MQTT broker, whose messages are a number in degrees C or JSON with a field:
#mqtt_host = broker.invented.example
#mqtt_topic = school/tank
#mqtt_field = temperature
#mqtt_tls = yes
#mqtt_user = redd
#mqtt_password = secret

# How often it is read, and when silence is an alarm.
every_seconds = 30
silent_after_minutes = 30

# Limits in degrees C. Left out: two degrees around the season's target.
#low_c = 6
#high_c = 10

# Who is told, beside the page.
#language = en
#desktop = yes
#mail_to = keeper@invented.example
#mail_from = tank@invented.example
#mail_server = sendmail
#webhook_url = https://hooks.invented.example/tank
#webhook_token = secret
)";
}

}  // namespace redd::sensors
